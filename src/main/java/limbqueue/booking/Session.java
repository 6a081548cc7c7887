package limbqueue.booking;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Optional;
import java.util.Set;

/**
 * A stretch of time in which staff, a room and its equipment are there for patients.
 *
 * @param id as the practice names it, one of its kind
 * @param start on the clock of the place
 * @param end on the clock of the place, after {@code start}
 * @param minutes that pass between them, above 0; not what the clock says in a night in which clocks are changed
 * @param place the room; no two open sessions have one at the same time
 * @param operator who leads it; nobody leads two open sessions at the same time
 * @param capabilities what cases that need more than the room find in it
 * @param closed whether nobody can be treated in it after all
 * @param closedFor why it is closed, as the end of "it is closed: "; empty where nobody said, or where it is open
 * @param held what of it is kept for urgent cases, at most {@code minutes}
 */
public record Session(
        String id,
        SessionKind kind,
        LocalDateTime start,
        LocalDateTime end,
        int minutes,
        String place,
        String operator,
        Set<Capability> capabilities,
        boolean closed,
        Optional<String> closedFor,
        HeldTime held) {

    /** Closed, if it is, for no reason given; and nothing of it held. */
    public Session(
            String id,
            SessionKind kind,
            LocalDateTime start,
            LocalDateTime end,
            int minutes,
            String place,
            String operator,
            Set<Capability> capabilities,
            boolean closed) {
        this(id, kind, start, end, minutes, place, operator, capabilities, closed, Optional.empty(), HeldTime.NONE);
    }

    /**
     * @throws IllegalArgumentException if it ends before it starts, has no minutes, has a reason to be closed and is open, or
     *     more of it is held than there is
     */
    public Session {
        if (!end.isAfter(start) || minutes <= 0) {
            throw new IllegalArgumentException("the session %s has no time in it".formatted(id));
        }
        if (!closed && closedFor.isPresent()) {
            throw new IllegalArgumentException("the session %s is open".formatted(id));
        }
        if (held.minutes() > minutes) {
            throw new IllegalArgumentException("the session %s holds more than it has".formatted(id));
        }
        capabilities = Set.copyOf(capabilities);
    }

    /** The same session, closed for {@code reason}. */
    public Session closedFor(String reason) {
        return new Session(
                id, kind, start, end, minutes, place, operator, capabilities, true, Optional.of(reason), held);
    }

    /** The same session, of which {@code held} is kept for urgent cases. */
    public Session holding(HeldTime held) {
        return new Session(id, kind, start, end, minutes, place, operator, capabilities, closed, closedFor, held);
    }

    /** The same session, with another number of minutes for patients, above 0; no more than these are held. */
    public Session lasting(int otherMinutes) {
        return new Session(
                id,
                kind,
                start,
                end,
                otherMinutes,
                place,
                operator,
                capabilities,
                closed,
                closedFor,
                held.atMost(otherMinutes));
    }

    /** The day on which it starts. */
    public LocalDate date() {
        return start.toLocalDate();
    }

    /** Minutes that are kept for urgent cases on {@code day}. */
    public int keptOn(LocalDate day) {
        return held.keptOn(day, date());
    }

    /** Whether a part of both is at the same time. */
    public boolean overlaps(Session other) {
        return start.isBefore(other.end) && other.start.isBefore(end);
    }
}
