package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.UUID;
import limbqueue.booking.SessionKind;
import limbqueue.booking.SessionTime;
import limbqueue.timetable.jdbc.CalendarQuery;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SessionCalendarTest {

    /**
     * Clocks change at 01:00 UTC on the last Sundays of March and October in the European Union (Directive 2000/84/EC, articles 2
     * and 3), and at 02:00 of the local clock on the second Sunday of March in the United States (15 U.S.C. 260a).
     */
    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin, 2026-03-28, 00:30, 04:00, 2026-03-27T23:30:00Z, 2026-03-28T03:00:00Z",
        "Europe/Berlin, 2026-03-29, 00:30, 04:00, 2026-03-28T23:30:00Z, 2026-03-29T02:00:00Z",
        "Europe/Berlin, 2026-10-25, 00:30, 04:00, 2026-10-24T22:30:00Z, 2026-10-25T03:00:00Z",
        "America/New_York, 2026-03-08, 01:00, 04:00, 2026-03-08T06:00:00Z, 2026-03-08T08:00:00Z",
        "Europe/Berlin, 2026-07-01, 08:00, 12:00, 2026-07-01T06:00:00Z, 2026-07-01T10:00:00Z"
    })
    void aSessionHasItsMomentsInANightOfChangedClocksToo(
            ZoneId zone, LocalDate day, LocalTime start, LocalTime end, Instant first, Instant last) {
        var time = (SessionTime.Possible) SessionTime.of(day, start, end, zone);
        var row = new CalendarQuery.Row(
                UUID.randomUUID(),
                SessionKind.CT,
                time.start(),
                time.minutes(),
                "Scanner 2",
                "Dr Halvern",
                false,
                0,
                0,
                Instant.EPOCH);

        var session = SessionCalendar.moments(row, zone);

        assertThat(session.start()).isEqualTo(first);
        assertThat(session.end()).isEqualTo(last);
    }
}
