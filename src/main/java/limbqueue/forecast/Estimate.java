package limbqueue.forecast;

import java.util.Arrays;
import java.util.Optional;

/**
 * A figure found by simulation.
 *
 * @param error standard error that comes of the number of runs alone: with endless runs the figure would lie within twice of it
 *     in about 95 of 100 cases
 */
public record Estimate(double value, double error) {

    /** Of runs that know nothing of each other, at least 2. */
    static Estimate mean(double[] runs) {
        var mean = Arrays.stream(runs).average().orElseThrow();
        return new Estimate(mean, errorOfMean(runs, mean));
    }

    /**
     * What is {@code of} in all runs together, for each of what is {@code all}. The error is that of a ratio of two sums (W. G.
     * Cochran, Sampling Techniques, third edition, section 2.11, value from memory). Empty where {@code all} is nothing.
     */
    static Optional<Estimate> ratio(double[] of, double[] all) {
        var sum = Arrays.stream(all).sum();
        if (sum == 0) {
            return Optional.empty();
        }
        var ratio = Arrays.stream(of).sum() / sum;
        var residuals = new double[all.length];
        for (var run = 0; run < all.length; run++) {
            residuals[run] = of[run] - ratio * all[run];
        }
        return Optional.of(new Estimate(ratio, errorOfMean(residuals, 0) / (sum / all.length)));
    }

    private static double errorOfMean(double[] runs, double mean) {
        var squares =
                Arrays.stream(runs).map(run -> (run - mean) * (run - mean)).sum();
        return Math.sqrt(squares / (runs.length - 1) / runs.length);
    }
}
