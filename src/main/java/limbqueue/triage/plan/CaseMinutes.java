package limbqueue.triage.plan;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.triage.plan.CaseFeatures.CaseClass;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * How many minutes a case takes in the room, as a log-normal distribution: the logarithm of the minutes is normally
 * distributed about the logarithm of their median.
 *
 * <p><b>Prior.</b> The median is a sum: so many minutes for the room, for each narrowed and each closed lesion, for
 * each 100 mm of length, for each heavily calcified lesion, for an earlier failure and for an arm. How far nine of
 * ten cases may exceed the median is a factor. All of these are common practice and stand in the file of thresholds.
 *
 * <p><b>Learning.</b> Of each recorded case only the factor counts by which it took longer or shorter than the median
 * of the prior for a case like it; its logarithm is {@code x}. For each class of cases by itself, the mean and the
 * variance of {@code x} are learned by conjugate analysis of normal data of which neither is known: with {@code k}
 * prior cases of mean 0 and variance {@code v}, and {@code n} recorded ones of mean {@code m},
 *
 * <pre>
 * mean     = (k * 0 + n * m) / (k + n)
 * variance = (k * v + sum of (x - m)^2 + k * n / (k + n) * (m - 0)^2) / (k + n)
 * </pre>
 *
 * <p>which is the normal and scaled inverse chi-squared model with {@code k} for both prior sample sizes (A. Gelman et
 * al., Bayesian Data Analysis, third edition, section 3.3, value from memory). So without cases the prior stands,
 * with few the practice moves a little from it, with many the practice's own times stand. An {@code x} beyond
 * {@value #OUTLIER} standard deviations of the prior counts as one at that distance, so that a clock left running does
 * not move the others. Both numbers of a distribution take mean and variance as if they were known.
 */
public final class CaseMinutes {

    /** Quantile of 90 % of the standard normal distribution (value from memory). */
    private static final double NINETY = 1.2815515655446004;

    private static final double OUTLIER = 3;

    /**
     * Minutes of cases of one kind.
     *
     * @param median half of the cases take no longer
     * @param ninety nine of ten cases take no longer
     */
    public record Minutes(double median, double ninety) {}

    /** Of the logarithm of the factor to the median of the prior. */
    private record Learned(double mean, double variance) {}

    private final Limits limits;
    private final Map<CaseClass, Learned> learned;

    private CaseMinutes(Limits limits, Map<CaseClass, Learned> learned) {
        this.limits = limits;
        this.learned = learned;
    }

    /** Common practice alone. */
    public static CaseMinutes prior(Limits limits) {
        return new CaseMinutes(limits, Map.of());
    }

    /** The prior moved by what the practice has recorded. The order of the cases does not matter. */
    public CaseMinutes learned(List<RecordedCase> cases) {
        var factors = new EnumMap<CaseClass, Factors>(CaseClass.class);
        for (var recorded : cases) {
            var kind = recorded.features().caseClass();
            var most = OUTLIER * Math.sqrt(priorVariance(kind));
            var factor = Math.log(recorded.minutes() / priorMedian(recorded.features()));
            factors.computeIfAbsent(kind, _ -> new Factors()).add(Math.clamp(factor, -most, most));
        }
        var posterior = new EnumMap<CaseClass, Learned>(CaseClass.class);
        factors.forEach((kind, ofKind) -> posterior.put(kind, posterior(ofKind.sorted(), priorVariance(kind))));
        return new CaseMinutes(limits, posterior);
    }

    /** Sorted before they are added up, since sums of floating point numbers depend on their order. */
    private static final class Factors {
        private final List<Double> values = new ArrayList<>();

        void add(double factor) {
            values.add(factor);
        }

        Collection<Double> sorted() {
            return values.stream().sorted().toList();
        }
    }

    private Learned posterior(Collection<Double> factors, double priorVariance) {
        var prior = limits.of(Limit.PLAN_MINUTES_PRIOR_CASES);
        var cases = factors.size();
        var mean = factors.stream().mapToDouble(factor -> factor).sum() / cases;
        var squares = factors.stream()
                .mapToDouble(factor -> Math.pow(factor - mean, 2))
                .sum();
        return new Learned(
                cases * mean / (prior + cases),
                (prior * priorVariance + squares + prior * cases / (prior + cases) * mean * mean) / (prior + cases));
    }

    /** The minutes of a case with {@code features}. */
    public Minutes of(CaseFeatures features) {
        var kind = features.caseClass();
        var factor = learned.getOrDefault(kind, new Learned(0, priorVariance(kind)));
        var median = priorMedian(features) * Math.exp(factor.mean());
        return new Minutes(median, median * Math.exp(NINETY * Math.sqrt(factor.variance())));
    }

    /** A wide range for a case of which nobody has seen the arteries. Nothing is learned about it. */
    public Minutes beforeImaging() {
        var median = limits.of(Limit.PLAN_MINUTES_BEFORE_IMAGING);
        return new Minutes(median, median * limits.of(Limit.PLAN_MINUTES_SPREAD_BEFORE_IMAGING));
    }

    private double priorMedian(CaseFeatures features) {
        return limits.of(Limit.PLAN_MINUTES_BASE)
                + features.narrowed() * limits.of(Limit.PLAN_MINUTES_NARROWED)
                + features.closed() * limits.of(Limit.PLAN_MINUTES_CLOSED)
                + features.lengthMm() / 100 * limits.of(Limit.PLAN_MINUTES_LENGTH)
                + features.heavilyCalcified() * limits.of(Limit.PLAN_MINUTES_CALCIFIED)
                + (features.earlierFailure() ? limits.of(Limit.PLAN_MINUTES_EARLIER_FAILURE) : 0)
                + (features.fromArm() ? limits.of(Limit.PLAN_MINUTES_ARM) : 0);
    }

    private double priorVariance(CaseClass kind) {
        var spread =
                limits.of(kind == CaseClass.NARROWED ? Limit.PLAN_MINUTES_SPREAD : Limit.PLAN_MINUTES_SPREAD_CLOSED);
        return Math.pow(Math.log(spread) / NINETY, 2);
    }
}
