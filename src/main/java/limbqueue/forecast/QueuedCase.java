package limbqueue.forecast;

import java.time.LocalDate;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;

/**
 * A case that waits for the room already.
 *
 * @param received the day from which its wait counts
 * @param ready the first day on which it can be treated, as far as is known; a day that has passed means now
 * @param target the day by which it should be treated
 * @param minutes in the room
 */
public record QueuedCase(
        Tier tier, LocalDate received, LocalDate ready, LocalDate target, CaseMinutes.Minutes minutes) {

    /** @throws IllegalArgumentException if the minutes cannot be */
    public QueuedCase {
        RoomMinutes.of(minutes);
    }
}
