package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.SessionTime;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** When the patients of a session are expected. Each takes 45 minutes. */
class FilledSessionTest {

    private static final ZoneId BERLIN = ZoneId.of("Europe/Berlin");

    private static FilledSession ofFive(ZoneId zone, LocalDate day, LocalTime start, int emergencyMinutes) {
        var end = LocalTime.of(6, 0);
        var time = (SessionTime.Possible) SessionTime.of(day, start, end, zone);
        return new FilledSession(
                new KeptSession(
                        1,
                        1,
                        new Session(
                                "S",
                                SessionKind.PROCEDURE_ROOM,
                                day.atTime(start),
                                day.atTime(end),
                                time.minutes(),
                                "Room",
                                "Dr Imre",
                                Set.of(),
                                false),
                        Optional.empty(),
                        emergencyMinutes,
                        "Wren",
                        Instant.EPOCH),
                IntStream.rangeClosed(1, 5).mapToObj(FilledSessionTest::placed).toList(),
                zone);
    }

    private static Placed placed(int position) {
        return new Placed(
                position,
                1,
                position,
                "C" + position,
                "",
                StepKind.PROCEDURE,
                1,
                position,
                new StepMinutes(45, 45),
                false,
                false,
                "Wren",
                Instant.EPOCH);
    }

    /**
     * Clocks change at 01:00 UTC on the last Sundays of March and October in the European Union (Directive 2000/84/EC, articles 2
     * and 3), and at 02:00 of the local clock on the second Sunday of March and the first of November in the United States (15
     * U.S.C. 260a). The hours are those of the tz database for these zones, worked out by hand from UTC: in Berlin on 29 March
     * 2026 the third patient comes 90 minutes after 00:00 UTC, at 01:30 UTC, when clocks there show 03:30.
     */
    @ParameterizedTest
    @CsvSource({
        "Europe/Berlin, 2026-03-28, 01:00, 01:00 01:45 02:30 03:15 04:00, 04:45",
        "Europe/Berlin, 2026-03-29, 01:00, 01:00 01:45 03:30 04:15 05:00, 05:45",
        "Europe/Berlin, 2026-10-25, 01:00, 01:00 01:45 02:30 02:15 03:00, 03:45",
        "America/New_York, 2026-03-08, 01:00, 01:00 01:45 03:30 04:15 05:00, 05:45",
        "America/New_York, 2026-11-01, 00:30, 00:30 01:15 01:00 01:45 02:30, 03:15"
    })
    void inANightOfChangedClocksPatientsAreExpectedWhenTheClockShowsIt(
            ZoneId zone, LocalDate day, LocalTime start, String starts, LocalTime next) {
        var session = ofFive(zone, day, start, 0);
        assertThat(session.patients().stream().map(session::startsFor))
                .containsExactly(Arrays.stream(starts.split(" "))
                        .map(time -> day.atTime(LocalTime.parse(time)))
                        .toArray(LocalDateTime[]::new));
        assertThat(session.startsForTheNext()).isEqualTo(day.atTime(next));
        assertThat(session.endsFor(session.patients().getLast())).isEqualTo(session.startsForTheNext());
    }

    @Test
    void anEmergencyTakesNoneOfTheTimesOfWhichPatientsAreTold() {
        var day = LocalDate.of(2026, 3, 2);
        var session = ofFive(BERLIN, day, LocalTime.of(1, 0), 60);
        assertThat(session.expected()).isEqualTo(285);
        assertThat(session.startsForTheNext()).isEqualTo(day.atTime(4, 45));
    }

    @Test
    void whoLeavesBringsThoseBehindForward() {
        var day = LocalDate.of(2026, 3, 2);
        var session = ofFive(BERLIN, day, LocalTime.of(1, 0), 0);
        var patients = session.patients();
        var left = session.without(patients.get(1));
        assertThat(left.patients())
                .isEqualTo(List.of(patients.get(0), patients.get(2), patients.get(3), patients.get(4)));
        assertThat(left.startsFor(patients.get(0))).isEqualTo(day.atTime(1, 0));
        assertThat(left.startsFor(patients.get(2))).isEqualTo(day.atTime(1, 45));
        assertThat(left.startsFor(patients.get(4))).isEqualTo(day.atTime(3, 15));
    }
}
