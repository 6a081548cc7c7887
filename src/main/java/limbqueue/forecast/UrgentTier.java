package limbqueue.forecast;

import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;

/**
 * A tier for which time is held back.
 *
 * @param minutes of its cases in the room
 * @param lead days from being received until a case can be treated at the soonest, 0 or more
 * @param days days from being received by which it should be treated, as the policy says; at least {@code lead}
 */
public record UrgentTier(Tier tier, CaseMinutes.Minutes minutes, int lead, int days) {

    /** @throws IllegalArgumentException if the days or the minutes cannot be */
    public UrgentTier {
        if (lead < 0 || days < lead) {
            throw new IllegalArgumentException(
                    "%s: to be treated within %s days, and not before %s".formatted(tier.words(), days, lead));
        }
        RoomMinutes.of(minutes);
    }
}
