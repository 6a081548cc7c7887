package limbqueue.forecast;

import java.util.Arrays;
import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.DiscreteSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;

/**
 * The urgent cases of one life, in the order in which they come. Days count from a Monday, the first being 0. Before the weeks
 * that count and after them there are others, so that these neither begin with everything free nor end with nobody to come.
 */
final class UrgentCases {

    private static final int WEEK = 7;

    private final int around;
    private final int weeks;
    private final int[] received;
    private final int[] tier;
    private final double[] minutes;

    private UrgentCases(int around, int weeks, int count) {
        this.around = around;
        this.weeks = weeks;
        this.received = new int[count];
        this.tier = new int[count];
        this.minutes = new double[count];
    }

    static UrgentCases drawn(HeldBack question, int weeks, UniformRandomProvider random) {
        var tiers = question.tiers();
        var around = tiers.stream().mapToInt(UrgentTier::days).max().orElseThrow() / WEEK + 1;
        var days = (weeks + 2 * around) * WEEK;
        var numbers = new DiscreteSampler[tiers.size()][];
        for (var at = 0; at < tiers.size(); at++) {
            numbers[at] = Arrays.stream(question.arrivals().drawn(tiers.get(at).tier(), random))
                    .mapToObj(rate -> Randomness.poisson(random, rate))
                    .toArray(DiscreteSampler[]::new);
        }
        var count = 0;
        var coming = new int[days][tiers.size()];
        for (var day = 0; day < days; day++) {
            for (var at = 0; at < tiers.size(); at++) {
                coming[day][at] = numbers[at][day % WEEK].sample();
                count += coming[day][at];
            }
        }
        var cases = new UrgentCases(around, weeks, count);
        var minutes = tiers.stream().map(tier -> RoomMinutes.of(tier.minutes())).toList();
        var normal = ZigguratSampler.NormalizedGaussian.of(random);
        var next = 0;
        for (var day = 0; day < days; day++) {
            for (var at = 0; at < tiers.size(); at++) {
                for (var one = 0; one < coming[day][at]; one++) {
                    cases.received[next] = day;
                    cases.tier[next] = at;
                    cases.minutes[next] = minutes.get(at).at(normal.sample());
                    next++;
                }
            }
        }
        return cases;
    }

    int size() {
        return received.length;
    }

    /** The day on which a case comes. */
    int received(int at) {
        return received[at];
    }

    /** The place of a case's tier in the list of tiers. */
    int tier(int at) {
        return tier[at];
    }

    double minutes(int at) {
        return minutes[at];
    }

    /** The first day that counts. */
    int first() {
        return around * WEEK;
    }

    /** The day after the last that counts. */
    int end() {
        return (around + weeks) * WEEK;
    }

    int days() {
        return (weeks + 2 * around) * WEEK;
    }
}
