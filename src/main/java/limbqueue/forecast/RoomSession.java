package limbqueue.forecast;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Time in the room on a day.
 *
 * @param minutes above 0
 */
public record RoomSession(LocalDate date, int minutes) {

    /** @throws IllegalArgumentException if it has no minutes */
    public RoomSession {
        if (minutes <= 0) {
            throw new IllegalArgumentException("a session on %s of %s minutes".formatted(date, minutes));
        }
    }

    /** What comes of the sessions of each week in so many weeks from {@code from} on. */
    public static List<RoomSession> of(List<WeeklySession> weekly, LocalDate from, int weeks) {
        return IntStream.range(0, weeks * 7)
                .mapToObj(from::plusDays)
                .flatMap(date -> weekly.stream()
                        .filter(session -> session.day() == date.getDayOfWeek())
                        .map(session -> new RoomSession(date, session.minutes())))
                .toList();
    }
}
