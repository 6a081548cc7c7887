package limbqueue.governance;

import java.util.Collection;
import java.util.Optional;

/**
 * Percentiles of some numbers. With the N numbers in rising order, the percentile p is at place p(N + 1); between two places
 * it lies between their numbers, before the first place it is the first number, after the last the last (NIST/SEMATECH
 * e-Handbook of Statistical Methods, 7.2.6.2; R6 of Hyndman and Fan, Am Stat 1996;50:361-365).
 */
public record Spread(double tenth, double quarter, double median, double threeQuarters, double ninetieth) {

    /** Empty for no numbers. */
    public static Optional<Spread> of(Collection<? extends Number> numbers) {
        if (numbers.isEmpty()) {
            return Optional.empty();
        }
        var sorted = numbers.stream().mapToDouble(Number::doubleValue).sorted().toArray();
        return Optional.of(new Spread(
                percentile(sorted, 0.10),
                percentile(sorted, 0.25),
                percentile(sorted, 0.50),
                percentile(sorted, 0.75),
                percentile(sorted, 0.90)));
    }

    /**
     * @param sorted in rising order, at least one
     * @param share 0 to 1
     */
    static double percentile(double[] sorted, double share) {
        var place = share * (sorted.length + 1);
        var before = (int) Math.floor(place);
        if (before < 1) {
            return sorted[0];
        }
        if (before >= sorted.length) {
            return sorted[sorted.length - 1];
        }
        return sorted[before - 1] + (place - before) * (sorted[before] - sorted[before - 1]);
    }
}
