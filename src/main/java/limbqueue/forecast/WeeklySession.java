package limbqueue.forecast;

import java.time.DayOfWeek;

/**
 * Time in the room that there is in every week.
 *
 * @param minutes above 0
 */
public record WeeklySession(DayOfWeek day, int minutes) {

    /** @throws IllegalArgumentException if it has no minutes */
    public WeeklySession {
        if (minutes <= 0) {
            throw new IllegalArgumentException("a session on %s of %s minutes".formatted(day, minutes));
        }
    }
}
