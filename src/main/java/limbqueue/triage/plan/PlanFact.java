package limbqueue.triage.plan;

import java.util.List;
import java.util.Optional;
import limbqueue.triage.anatomy.LesionFact;
import limbqueue.triage.question.Entries;

/**
 * Something that a plan looks at and that may not be known.
 *
 * @param path the field of the referral that an answer fills
 * @param actOn what to act on while it is unknown
 * @param choices answers that stand for all answers
 * @param ask the question, as it can be asked on the phone
 */
record PlanFact<T>(String path, Optional<T> known, T actOn, List<T> choices, String ask) {

    static <T> PlanFact<T> of(LesionFact<T> fact) {
        return new PlanFact<>(fact.path(), fact.known(), fact.actOn(), fact.choices(), fact.ask());
    }

    /** A condition or an event, which is not invented while it is unknown. */
    static PlanFact<Boolean> yesOrNo(String path, Optional<Boolean> known, String ask) {
        return new PlanFact<>(path, known, false, List.of(false, true), ask);
    }

    /** Something that nobody has told: nothing is acted on, and each of {@code choices} is possible. */
    static <T> PlanFact<Optional<T>> untold(String path, List<T> choices, String ask) {
        return new PlanFact<>(path, Optional.empty(), Optional.empty(), Entries.each(choices, Optional::of), ask);
    }
}
