package limbqueue.sameday;

import java.time.Instant;
import java.util.Optional;

/**
 * A referral that proposes the same day, from the moment it is before the physician until it is so no more.
 *
 * @param since from when on
 */
public record SameDayCase(
        long id, long referral, Instant since, Optional<Escalation> escalation, Optional<Taken> taken) {

    /**
     * That nobody had taken it in time.
     *
     * @param minutes how long nobody had
     * @param to whom it was asked then
     */
    public record Escalation(Instant at, int minutes, String to) {}

    /** @param by display name */
    public record Taken(Instant at, String by) {}
}
