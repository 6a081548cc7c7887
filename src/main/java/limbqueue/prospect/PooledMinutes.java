package limbqueue.prospect;

import java.util.List;
import limbqueue.triage.plan.CaseMinutes.Minutes;

/**
 * The minutes of a case of which nothing is known but that it will be one like these: log-normal, with the mean and the variance
 * that the logarithm has when one of them is drawn.
 *
 * <pre>
 * mean     = mean of ln(median)
 * variance = mean of s^2 + variance of ln(median)     s = ln(ninety / median) / z, z the 90 % quantile of the standard normal
 * </pre>
 *
 * <p>That is the law of total variance; that the mixture is log-normal again is taken for granted.
 */
final class PooledMinutes {

    /** Quantile of 90 % of the standard normal distribution (value from memory). */
    private static final double NINETY = 1.2815515655446004;

    private PooledMinutes() {}

    /** @param cases at least one, their order does not matter */
    static Minutes of(List<Minutes> cases) {
        var mean = average(cases.stream().map(one -> Math.log(one.median())).toList());
        var within = average(cases.stream()
                .map(one -> square(Math.log(one.ninety() / one.median()) / NINETY))
                .toList());
        var between = average(
                cases.stream().map(one -> square(Math.log(one.median()) - mean)).toList());
        var median = Math.exp(mean);
        return new Minutes(median, median * Math.exp(NINETY * Math.sqrt(within + between)));
    }

    /** Sorted before they are added up, since sums of floating point numbers depend on their order. */
    private static double average(List<Double> values) {
        return values.stream().sorted().mapToDouble(value -> value).average().orElseThrow();
    }

    private static double square(double value) {
        return value * value;
    }
}
