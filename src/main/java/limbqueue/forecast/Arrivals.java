package limbqueue.forecast;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.triage.Tier;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.AhrensDieterMarsagliaTsangGammaSampler;

/**
 * How many referrals of each tier come on each day of the week, learned from those that came. Their number on a day is taken
 * to be Poisson distributed, with a rate that depends on tier and weekday and on nothing else.
 *
 * <p><b>Prior.</b> The seven rates of a tier have gamma priors of a common scale of which nothing is known. Then what is known
 * of them falls into two parts that have nothing to do with each other: the rate of the whole week, and how it is shared
 * among the days.
 *
 * <pre>
 * rate of the week | n referrals in w weeks   ~ Gamma(shape n + 1/2, rate w)          Jeffreys' prior
 * shares of days   | n(1), ..., n(7)          ~ Dirichlet(a(1) + n(1), ..., a(7) + n(7))
 * a(d) = 7 * (1 + others on d) / (7 + others)
 * </pre>
 *
 * <p>The {@code a} of a tier add up to 7, as though {@value #PRIOR_REFERRALS} more of its referrals had been seen, spread over the
 * week as those of the other tiers are: in a practice that takes nothing in on Sundays, a tier of which little is known is not
 * expected on Sundays either. So few data give no rate of 0, and many data stand for themselves (conjugate analysis of Poisson
 * and multinomial data: A. Gelman et al., Bayesian Data Analysis, third edition, sections 2.6 and 3.4, value from memory; the
 * weight of 7 is our choice).
 *
 * <p>Nothing is learned of seasons, of holidays, nor of a rising trend; who expects one gives the newest weeks alone.
 */
public final class Arrivals {

    private static final int PRIOR_REFERRALS = 7;
    private static final int WEEK = 7;

    /** A referral that came. */
    public record Received(LocalDate date, Tier tier) {}

    private final double weeks;
    private final long[][] counts;

    private Arrivals(double weeks, long[][] counts) {
        this.weeks = weeks;
        this.counts = counts;
    }

    /**
     * Of what was received from {@code first} to {@code last}, both included. Counted are whole weeks up to {@code last}; what
     * lies before them, or outside of the period, is not.
     *
     * @throws IllegalArgumentException if that is less than a week
     */
    public static Arrivals from(List<Received> received, LocalDate first, LocalDate last) {
        var weeks = ChronoUnit.DAYS.between(first, last.plusDays(1)) / WEEK;
        if (weeks < 1) {
            throw new IllegalArgumentException(
                    "from %s to %s is less than a week, too little to learn from".formatted(first, last));
        }
        var begin = last.plusDays(1).minusWeeks(weeks);
        var counts = new EnumMap<Tier, Map<DayOfWeek, Integer>>(Tier.class);
        for (var referral : received) {
            if (!referral.date().isBefore(begin) && !referral.date().isAfter(last)) {
                counts.computeIfAbsent(referral.tier(), _ -> new EnumMap<>(DayOfWeek.class))
                        .merge(referral.date().getDayOfWeek(), 1, Integer::sum);
            }
        }
        return counted(counts, Math.toIntExact(weeks));
    }

    /**
     * Of referrals counted before.
     *
     * @param counts 0 or more for each tier and weekday; what is left out is 0
     * @param weeks in which they were counted, above 0
     * @throws IllegalArgumentException if a count or {@code weeks} is out of range
     */
    public static Arrivals counted(Map<Tier, Map<DayOfWeek, Integer>> counts, int weeks) {
        var table = new long[Tier.values().length][WEEK];
        counts.forEach((tier, days) -> days.forEach((day, count) -> {
            if (count < 0) {
                throw new IllegalArgumentException("%s referrals %s on %s".formatted(count, tier.words(), day));
            }
            table[tier.ordinal()][day.ordinal()] = count;
        }));
        if (weeks < 1) {
            throw new IllegalArgumentException("referrals are counted over at least a week, not " + weeks);
        }
        return new Arrivals(weeks, table);
    }

    /** The referrals of {@code tier} counted, for rates of a week. */
    public PoissonCount counted(Tier tier) {
        return new PoissonCount(total(counts[tier.ordinal()]), weeks);
    }

    /** The referrals of {@code tier} counted on {@code day}, for rates of such a day. */
    public PoissonCount counted(Tier tier, DayOfWeek day) {
        return new PoissonCount(counts[tier.ordinal()][day.ordinal()], weeks);
    }

    /** Referrals of {@code tier} to be expected in a week, above 0. */
    public double inAWeek(Tier tier) {
        return shape(tier) / weeks;
    }

    /** Referrals of {@code tier} to be expected on such a day, above 0. */
    public double on(Tier tier, DayOfWeek day) {
        return inAWeek(tier) * weight(tier, day.ordinal()) / (PRIOR_REFERRALS + total(counts[tier.ordinal()]));
    }

    /** Rates of the days of a week, Monday first, as they may truly be: drawn from all that is known of them. */
    double[] drawn(Tier tier, UniformRandomProvider random) {
        var week = gamma(random, shape(tier)) / weeks;
        var rates = new double[WEEK];
        var sum = 0.0;
        for (var day = 0; day < WEEK; day++) {
            rates[day] = gamma(random, weight(tier, day));
            sum += rates[day];
        }
        for (var day = 0; day < WEEK; day++) {
            rates[day] *= week / sum;
        }
        return rates;
    }

    private double shape(Tier tier) {
        return total(counts[tier.ordinal()]) + PoissonCount.JEFFREYS;
    }

    /** Of a day in the shares of a tier's week: referrals counted, and those of the prior. */
    private double weight(Tier tier, int day) {
        var others = 0.0;
        var othersOnDay = 0.0;
        for (var other : Tier.values()) {
            if (other != tier) {
                others += total(counts[other.ordinal()]);
                othersOnDay += counts[other.ordinal()][day];
            }
        }
        return counts[tier.ordinal()][day] + PRIOR_REFERRALS * (1 + othersOnDay) / (WEEK + others);
    }

    private static double gamma(UniformRandomProvider random, double shape) {
        return AhrensDieterMarsagliaTsangGammaSampler.of(random, shape, 1).sample();
    }

    private static long total(long[] days) {
        var sum = 0L;
        for (var count : days) {
            sum += count;
        }
        return sum;
    }
}
