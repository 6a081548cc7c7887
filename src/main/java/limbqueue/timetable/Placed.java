package limbqueue.timetable;

import java.time.Instant;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;

/**
 * A patient's place in a session.
 *
 * @param version for optimistic locking, from 1
 * @param patient family and given name as far as known; empty for those who see no patients
 * @param session its id
 * @param position its order in the session, from 1, with gaps
 * @param told whether the patient has been told of it
 * @param planned whether it was taken over from a plan; placed by hand otherwise
 * @param author who placed it
 */
public record Placed(
        long id,
        int version,
        long referralId,
        String reference,
        String patient,
        StepKind step,
        long session,
        int position,
        StepMinutes minutes,
        boolean told,
        boolean planned,
        String author,
        Instant at) {

    /** What the patient is called on the page: the name, else the reference. */
    public String who() {
        return patient.isEmpty() ? reference : patient;
    }

    Placed withoutName() {
        return new Placed(
                id, version, referralId, reference, "", step, session, position, minutes, told, planned, author, at);
    }
}
