package limbqueue.chasing;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * A telephone call about a referral, as it was noted.
 *
 * @param requestId the records request that it was about, if it was about one
 * @param outcome how the patient is, if it was a safety call
 * @param spokeWith who was on the other end; never blank
 * @param said what was said; may be blank only where the outcome says it
 * @param againOn the day on which to call again, where one was agreed
 * @param author display name of who called
 */
public record PhoneCall(
        long id,
        long referralId,
        Kind kind,
        Optional<Long> requestId,
        Optional<Outcome> outcome,
        LocalDate calledOn,
        String spokeWith,
        String said,
        Optional<LocalDate> againOn,
        String author,
        Instant at) {

    public enum Kind {
        /** To a patient whose leg is threatened and who waits. */
        SAFETY,
        /** About records of another hospital. */
        RECORDS,
        /** About what the physician asked for. */
        INFORMATION,
        OTHER
    }

    public enum Outcome {
        UNCHANGED,
        WORSE,
        NOT_REACHED
    }
}
