package limbqueue.prospect;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.forecast.WeeklySession;
import org.junit.jupiter.api.Test;

class UsualWeekTest {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    private static Session room(int day, int hour, int minutes) {
        var start = MONDAY.plusDays(day).atTime(hour, 0);
        return new Session(
                "%d-%d".formatted(day, hour),
                SessionKind.PROCEDURE_ROOM,
                start,
                start.plusMinutes(minutes),
                minutes,
                "Angiography room",
                "Dr Imre",
                Set.of(),
                false);
    }

    @Test
    void aDayBelongsToItThatHasASessionInAtLeastHalfOfTheWeeks() {
        var sessions = new ArrayList<Session>();
        for (var week = 0; week < 4; week++) {
            sessions.add(room(1 + 7 * week, 8, 480));
        }
        sessions.add(room(3, 8, 240));
        sessions.add(room(3 + 14, 8, 240));
        sessions.add(room(4, 8, 240));
        assertThat(UsualWeek.of(sessions, MONDAY))
                .containsExactly(new WeeklySession(DayOfWeek.TUESDAY, 480), new WeeklySession(DayOfWeek.THURSDAY, 240));
    }

    @Test
    void theSessionsOfADayAreOneAndItsMinutesTheMeanOfSuchDays() {
        assertThat(UsualWeek.of(List.of(room(0, 8, 200), room(0, 13, 100), room(7, 8, 200)), MONDAY))
                .containsExactly(new WeeklySession(DayOfWeek.MONDAY, 250));
    }

    @Test
    void withoutSessionsThereIsNone() {
        assertThat(UsualWeek.of(List.of(), MONDAY)).isEmpty();
    }
}
