package limbqueue.timetable;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.SessionKind;

/**
 * A session as it is entered, right or not.
 *
 * @param start on the clock of the practice
 * @param end on the clock of the practice
 * @param held what of it is kept for urgent cases; empty for what the practice has chosen for such a day
 */
public record EnteredSession(
        SessionKind kind,
        LocalDate date,
        LocalTime start,
        LocalTime end,
        String place,
        String operator,
        Set<Capability> capabilities,
        Optional<HeldTime> held) {

    /** One that holds what the practice has chosen for such a day. */
    public EnteredSession(
            SessionKind kind,
            LocalDate date,
            LocalTime start,
            LocalTime end,
            String place,
            String operator,
            Set<Capability> capabilities) {
        this(kind, date, start, end, place, operator, capabilities, Optional.empty());
    }

    public EnteredSession {
        place = place.strip();
        operator = operator.strip();
        capabilities = Set.copyOf(capabilities);
    }

    EnteredSession on(LocalDate day) {
        return new EnteredSession(kind, day, start, end, place, operator, capabilities, held);
    }
}
