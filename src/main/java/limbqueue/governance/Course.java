package limbqueue.governance;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import limbqueue.preparation.CaseOutcome;
import limbqueue.triage.Tier;

/**
 * What became of one referral that a physician approved, changed or sent to hospital.
 *
 * @param tier as decided
 * @param decided the day of the decision
 * @param since the day from which the patient has waited
 * @param target the day by which it should have been done; empty for advice only
 * @param ended the day of the procedure, or on which the patient was sent to hospital; empty while neither is known
 * @param outcome of the procedure, where it is recorded
 * @param redFlags ids of the flags of the proposal that was decided on
 * @param received the day the referral came, on which the age is taken
 * @param sex {@code FEMALE}, {@code MALE} or {@code OTHER}; empty where nobody said
 * @param referrer name and organisation; empty where nobody said
 */
public record Course(
        Tier tier,
        LocalDate decided,
        LocalDate since,
        Optional<LocalDate> target,
        Optional<LocalDate> ended,
        Optional<CaseOutcome> outcome,
        List<String> redFlags,
        LocalDate received,
        Optional<LocalDate> born,
        Optional<String> sex,
        Optional<String> referrer,
        Haste haste) {

    /** Days waited until the end, at least 0; empty while there is none. */
    public Optional<Long> days() {
        return ended.map(end -> Math.max(0, ChronoUnit.DAYS.between(since, end)));
    }

    /** Whether the target date had gone by at the end, or on {@code day} where there is none by then. */
    public boolean lateOn(LocalDate day) {
        var until = ended.filter(end -> !end.isAfter(day)).orElse(day);
        return target.filter(until::isAfter).isPresent();
    }

    /** Whether it ended on a day of the period. */
    public boolean endedIn(Period period) {
        return ended.filter(period::contains).isPresent();
    }

    /** Whether it had been decided by the end of {@code day} and not ended. */
    public boolean waitingAfter(LocalDate day) {
        return tier != Tier.ADVICE_ONLY
                && !decided.isAfter(day)
                && ended.filter(end -> !end.isAfter(day)).isEmpty();
    }
}
