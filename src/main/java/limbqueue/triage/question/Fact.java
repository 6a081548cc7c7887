package limbqueue.triage.question;

import java.util.List;
import java.util.Optional;

/**
 * One thing about a referral that is known or could be asked.
 *
 * @param path the field of the referral that an answer fills
 * @param known the answer, where the referral gives it
 * @param actOn what to act on while it is unknown: for a measurement that nothing else replaces the most serious value,
 *     for a complaint the one that invents nothing
 * @param choices answers that stand for all answers: one from each range that the rules tell apart
 * @param ask the question, as it can be asked on the phone
 */
public record Fact<T>(String path, Optional<T> known, T actOn, List<T> choices, String ask) {

    /** A yes-or-no complaint or condition, not invented while it is unknown. */
    public static Fact<Boolean> yesOrNo(String path, Optional<Boolean> known, String ask) {
        return new Fact<>(path, known, false, List.of(false, true), ask);
    }
}
