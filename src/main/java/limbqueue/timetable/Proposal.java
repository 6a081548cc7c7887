package limbqueue.timetable;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import limbqueue.booking.Plan;
import limbqueue.booking.StepKind;
import limbqueue.triage.Tier;

/**
 * A plan as the difference to what is booked. A licensed clinician decides, and local protocol prevails.
 *
 * @param notice the sentence that must stand beside every proposal
 * @param by who asked for it
 * @param lastDay until which it plans
 * @param moves what would change, in the order in which it would take place
 * @param unplaced referrals that it has no whole way for, most urgent first
 * @param notQueued referrals that need no place, each with the reason
 */
public record Proposal(
        String notice,
        Instant at,
        String by,
        LocalDate asOf,
        LocalDate lastDay,
        List<Plan.LevelScore> levels,
        List<Move> moves,
        List<Unplaced> unplaced,
        List<Unplaced> notQueued) {

    /**
     * One step that would get a place, or another one.
     *
     * @param version of the appointment that was planned on, 0 for none
     * @param from the session it is in; empty for none
     * @param at when the patient would be expected
     * @param minutes expected
     * @param told whether the patient has been told of the place it has: then it is moved only with a yes of its own
     * @param forEarlier what would have to give for an earlier place
     */
    public record Move(
            long referralId,
            String reference,
            String patient,
            Tier tier,
            StepKind step,
            int version,
            Optional<KeptSession> from,
            KeptSession to,
            LocalDateTime at,
            long minutes,
            boolean told,
            String why,
            List<String> forEarlier) {}

    /** A referral without a place, or without one for each of its steps. */
    public record Unplaced(long referralId, String reference, String patient, String why) {}
}
