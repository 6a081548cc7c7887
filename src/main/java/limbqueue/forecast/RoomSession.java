package limbqueue.forecast;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;

/**
 * Time in the room on a day.
 *
 * @param minutes above 0
 * @param held minutes of these that are kept for urgent cases, 0 to {@code minutes}
 * @param releaseDays days before the session at the end of which what is still free of them is given to others, 0 or more; 0
 *     holds it to the last
 */
public record RoomSession(LocalDate date, int minutes, int held, int releaseDays) {

    /** @throws IllegalArgumentException if it has no minutes, more of it is held than there is, or days are negative */
    public RoomSession {
        if (minutes <= 0) {
            throw new IllegalArgumentException("a session on %s of %s minutes".formatted(date, minutes));
        }
        if (held < 0 || held > minutes || releaseDays < 0) {
            throw new IllegalArgumentException("a session on %s of %s minutes that holds %s until %s days before"
                    .formatted(date, minutes, held, releaseDays));
        }
    }

    /** Of which nothing is held. */
    public RoomSession(LocalDate date, int minutes) {
        this(date, minutes, 0, 0);
    }

    /** What comes of the sessions of each week in so many weeks from {@code from} on; nothing of them is held. */
    public static List<RoomSession> of(List<WeeklySession> weekly, LocalDate from, int weeks) {
        return IntStream.range(0, weeks * 7)
                .mapToObj(from::plusDays)
                .flatMap(date -> weekly.stream()
                        .filter(session -> session.day() == date.getDayOfWeek())
                        .map(session -> new RoomSession(date, session.minutes())))
                .toList();
    }
}
