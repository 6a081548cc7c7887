package limbqueue.forecast;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.AhrensDieterMarsagliaTsangGammaSampler;

/**
 * How often patients stayed away from the practice's appointments. The share of them is taken to be beta distributed; before
 * anything is known, as though 1 of 20 had stayed away (common practice, no source).
 *
 * @param missed 0 to {@code appointments}
 * @param appointments 0 or more
 */
public record Attendance(int missed, int appointments) {

    private static final double PRIOR_MISSED = 1;
    private static final double PRIOR_KEPT = 19;

    /** @throws IllegalArgumentException if more were missed than there were */
    public Attendance {
        if (missed < 0 || missed > appointments) {
            throw new IllegalArgumentException("%s of %s appointments missed".formatted(missed, appointments));
        }
    }

    /** The share of appointments that will be missed, 0 to 1. */
    public double expected() {
        return (missed + PRIOR_MISSED) / (appointments + PRIOR_MISSED + PRIOR_KEPT);
    }

    /** The same as it may truly be: drawn from all that is known of it. */
    double drawn(UniformRandomProvider random) {
        var away = gamma(random, missed + PRIOR_MISSED);
        return away / (away + gamma(random, appointments - missed + PRIOR_KEPT));
    }

    private static double gamma(UniformRandomProvider random, double shape) {
        return AhrensDieterMarsagliaTsangGammaSampler.of(random, shape, 1).sample();
    }
}
