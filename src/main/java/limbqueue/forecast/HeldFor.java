package limbqueue.forecast;

import java.util.Set;
import limbqueue.triage.Tier;

/**
 * For whom time is held in sessions, and what becomes of it when it is released.
 *
 * @param tiers whose cases may use it at any time
 * @param filledADay the share of free time that finds another patient with each day of notice, 0 to 1
 */
public record HeldFor(Set<Tier> tiers, double filledADay) {

    /** Where nothing is held. */
    public static final HeldFor NOBODY = new HeldFor(Set.of(), 0);

    /** @throws IllegalArgumentException if the share is out of range */
    public HeldFor {
        if (!(filledADay >= 0 && filledADay <= 1)) {
            throw new IllegalArgumentException("a share is 0 to 1, not " + filledADay);
        }
        tiers = Set.copyOf(tiers);
    }

    /** The share of what is released with so many days' notice that finds another patient: {@code 1 - (1 - filledADay)^days}. */
    double filled(int releaseDays) {
        return filled(filledADay, releaseDays);
    }

    static double filled(double aDay, int releaseDays) {
        return 1 - Math.pow(1 - aDay, releaseDays);
    }
}
