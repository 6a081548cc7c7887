package limbqueue.calendar;

import java.time.Instant;
import java.util.Optional;

/**
 * A link by which a calendar program reads sessions, without its secret, which nobody can read any more.
 *
 * @param author who made it
 * @param fetched when a program last read it, to the minute; nothing if none has
 */
public record CalendarLink(
        long id, CalendarOf of, String author, Instant at, Optional<Instant> fetched, Optional<Revoked> revoked) {

    public record Revoked(String author, Instant at) {}
}
