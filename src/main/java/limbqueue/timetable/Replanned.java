package limbqueue.timetable;

import java.time.Instant;
import java.time.LocalDateTime;
import java.util.List;
import java.util.Optional;
import limbqueue.booking.Replan;
import limbqueue.booking.StepKind;
import limbqueue.triage.Tier;

/**
 * What would become of the booked plan after something has happened, as the difference to it. A licensed clinician decides, and
 * local protocol prevails.
 *
 * @param notice the sentence that must stand beside every proposal
 * @param what has happened, as a sentence
 * @param closes sessions that do not take place
 * @param closedFor why; empty where none is closed
 * @param emergency where an emergency finds its minutes; empty without one, or where no session has them
 * @param lines what would change, most urgent first
 * @param without referrals that it has no whole way for, most urgent first; an emergency that no session can take is the first
 */
public record Replanned(
        String notice,
        Instant at,
        String what,
        List<KeptSession> closes,
        String closedFor,
        Optional<EmergencyPlace> emergency,
        List<Line> lines,
        List<Proposal.Unplaced> without) {

    /** @param minutes that the emergency needs of the session */
    public record EmergencyPlace(KeptSession session, int minutes) {}

    /**
     * A step whose place changes.
     *
     * @param version of the appointment that was planned on, 0 for none
     * @param from the session it is in; empty for none
     * @param to the session in the new plan; empty for none
     * @param at when the patient would be expected there
     * @param minutes expected
     * @param told whether the patient has been told of the place it has: then it is moved only with a yes of its own
     */
    public record Line(
            long referralId,
            String reference,
            String patient,
            Tier tier,
            StepKind step,
            int version,
            Optional<KeptSession> from,
            Optional<KeptSession> to,
            Optional<LocalDateTime> at,
            long minutes,
            boolean told,
            Replan.Cause cause,
            String why) {

        /** What the patient is called on the page: the name, else the reference. */
        public String who() {
            return patient.isBlank() ? reference : patient;
        }
    }

    /** How many patients who have been told of a place would lose it. */
    public long toldPatients() {
        return lines.stream()
                .filter(Line::told)
                .map(Line::referralId)
                .distinct()
                .count();
    }
}
