package limbqueue.forecast;

import java.util.Arrays;

/**
 * Where a figure is to be expected: 8 of 10 runs lie within {@code low} and {@code high}, both included, or more where it is a
 * whole number.
 *
 * @param expected the mean
 */
public record Band(double low, double expected, double high) {

    private static final double TENTH = 0.1;

    /**
     * Of at least one run: the least figure that a tenth of them do not exceed, and the least that nine tenths do not exceed
     * (the inverse of the empirical distribution function; definition 1 of R. J. Hyndman, Y. Fan. Sample quantiles in statistical
     * packages. Am Stat 1996;50:361-365).
     */
    static Band of(double[] runs, double expected) {
        var sorted = runs.clone();
        Arrays.sort(sorted);
        return new Band(quantile(sorted, TENTH), expected, quantile(sorted, 1 - TENTH));
    }

    static Band of(double[] runs) {
        return of(runs, Arrays.stream(runs).average().orElseThrow());
    }

    private static double quantile(double[] sorted, double share) {
        // A hair's breadth of a floating point number is no run.
        return sorted[Math.max(0, (int) Math.ceil(share * sorted.length - 1e-9) - 1)];
    }
}
