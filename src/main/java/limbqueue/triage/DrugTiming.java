package limbqueue.triage;

import java.time.LocalDateTime;
import java.util.Optional;

/**
 * What is proposed for one drug about a procedure; its prescriber decides. No dose is in it.
 *
 * @param drug generic name
 * @param medicine path of the medicine in the referral
 * @param hold how long it is held, in words; empty unless it is held
 * @param lastDose the latest time of the last dose, worked back from the procedure; empty unless the drug is held and the
 *     time of the procedure is known
 * @param restart the earliest time of the next dose, counted from the booked time; empty as {@code lastDose}
 * @param text the proposal in a sentence
 */
public record DrugTiming(
        String drug,
        String medicine,
        Action action,
        Optional<String> hold,
        Optional<LocalDateTime> lastDose,
        Optional<LocalDateTime> restart,
        String text,
        String source) {

    public enum Action {
        CONTINUE,
        HOLD,
        /** No proposal is made: only the prescriber knows enough. */
        ASK_PRESCRIBER
    }
}
