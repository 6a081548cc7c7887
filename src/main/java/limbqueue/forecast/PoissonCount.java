package limbqueue.forecast;

import org.apache.commons.statistics.distribution.GammaDistribution;

/**
 * Events counted over a time in which they come independently of each other, so that their number is Poisson distributed.
 *
 * @param events 0 or more
 * @param time above 0, in the unit that the rate shall be of
 */
public record PoissonCount(long events, double time) {

    /** Shape of Jeffreys' prior of a Poisson rate (value from memory). */
    static final double JEFFREYS = 0.5;

    /** @throws IllegalArgumentException if there are fewer than no events, or no time */
    public PoissonCount {
        if (events < 0 || !(time > 0) || Double.isInfinite(time)) {
            throw new IllegalArgumentException("%s events in a time of %s".formatted(events, time));
        }
    }

    /** Events for each unit of time, as counted: 0 where there were none. */
    public double rate() {
        return (double) events / time;
    }

    /**
     * The exact confidence interval of the rate: half the quantiles of the chi-squared distribution with 2 n and with
     * 2 n + 2 degrees of freedom, which are quantiles of gamma distributions of shape n and n + 1 (F. Garwood. Fiducial
     * limits for the Poisson distribution. Biometrika 1936;28:437-442). It holds the truth at least as often as it says.
     *
     * @param level above 0 and below 1, as 0.95
     */
    public Interval exact(double level) {
        var beyond = beyond(level);
        return new Interval(events == 0 ? 0 : quantile((double) events, beyond), quantile(events + 1.0, 1 - beyond));
    }

    /**
     * Where the rate lies with a probability of {@code level} if nothing but this count is known of it. The prior is that of
     * Jeffreys, a gamma distribution of shape 1/2 and without weight of time, so the rate is gamma distributed with shape
     * n + 1/2. The limits lie within those of {@link #exact}, and no count makes the rate 0.
     *
     * @param level above 0 and below 1
     */
    public Interval likely(double level) {
        var beyond = beyond(level);
        return new Interval(quantile(events + JEFFREYS, beyond), quantile(events + JEFFREYS, 1 - beyond));
    }

    private double quantile(double shape, double share) {
        return GammaDistribution.of(shape, 1 / time).inverseCumulativeProbability(share);
    }

    private static double beyond(double level) {
        if (!(level > 0 && level < 1)) {
            throw new IllegalArgumentException("a level is above 0 and below 1, not " + level);
        }
        return (1 - level) / 2;
    }
}
