package limbqueue.booking;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Set;

/**
 * A stretch of time in which staff, a room and its equipment are there for patients.
 *
 * @param id as the practice names it, one of its kind
 * @param start on the clock of the place
 * @param end on the clock of the place, after {@code start}
 * @param minutes that pass between them, above 0; not what the clock says in a night in which clocks are changed
 * @param closed whether nobody can be treated in it after all
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
        boolean closed) {

    /** @throws IllegalArgumentException if it ends before it starts, or has no minutes */
    public Session {
        if (!end.isAfter(start) || minutes <= 0) {
            throw new IllegalArgumentException("the session %s has no time in it".formatted(id));
        }
        capabilities = Set.copyOf(capabilities);
    }

    public LocalDate date() {
        return start.toLocalDate();
    }

    /** Whether a part of both is at the same time. */
    public boolean overlaps(Session other) {
        return start.isBefore(other.end) && other.start.isBefore(end);
    }
}
