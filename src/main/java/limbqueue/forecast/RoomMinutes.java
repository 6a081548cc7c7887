package limbqueue.forecast;

import limbqueue.triage.plan.CaseMinutes;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * Minutes of a case, log-normally distributed as {@link CaseMinutes} has them.
 *
 * @param median above 0
 * @param spread standard deviation of their logarithm, 0 or more
 */
record RoomMinutes(double median, double spread) {

    private static final double NINETY = NormalDistribution.of(0, 1).inverseCumulativeProbability(0.9);

    /** @throws IllegalArgumentException if they are not minutes, or nine of ten are said to take less than half of them */
    static RoomMinutes of(CaseMinutes.Minutes minutes) {
        if (!(minutes.median() > 0) || !(minutes.ninety() >= minutes.median()) || Double.isInfinite(minutes.ninety())) {
            throw new IllegalArgumentException(
                    "a case of median %s minutes, nine of ten within %s".formatted(minutes.median(), minutes.ninety()));
        }
        return new RoomMinutes(minutes.median(), Math.log(minutes.ninety() / minutes.median()) / NINETY);
    }

    /** What is planned for the case. */
    double mean() {
        return median * Math.exp(spread * spread / 2);
    }

    /** @param normal so many standard deviations from the middle */
    double at(double normal) {
        return spread == 0 ? median : median * Math.exp(spread * normal);
    }
}
