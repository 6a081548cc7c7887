package limbqueue.forecast;

import org.apache.commons.rng.UniformRandomProvider;
import org.apache.commons.rng.sampling.distribution.NormalizedGaussianSampler;
import org.apache.commons.rng.sampling.distribution.ZigguratSampler;

/**
 * Everybody of one run: who waits already, and who will come. Drawn before anybody is treated, so that the same people come,
 * take as long and stay away as often whatever sessions there are.
 */
final class DrawnCases {

    private static final int WEEK = 7;

    private final int[] tier;
    private final int[] received;
    private final int[] ready;
    private final int[] target;
    private final double[] planned;
    private final double[] minutes;
    private final int[] misses;

    private DrawnCases(int size) {
        this.tier = new int[size];
        this.received = new int[size];
        this.ready = new int[size];
        this.target = new int[size];
        this.planned = new double[size];
        this.minutes = new double[size];
        this.misses = new int[size];
    }

    static DrawnCases drawn(Outset outset, UniformRandomProvider random) {
        var coming = coming(outset, random);
        var count = outset.queue().size();
        for (var ofKind : coming) {
            for (var onDay : ofKind) {
                count += onDay;
            }
        }
        var cases = new DrawnCases(count);
        var missing = outset.attendance().drawn(random);
        var normal = ZigguratSampler.NormalizedGaussian.of(random);
        var next = 0;
        for (var known : outset.queue()) {
            cases.put(next, known.tier(), known.received(), known.ready(), known.target());
            cases.draw(next++, known.minutes(), known.planned(), missing, normal, random);
        }
        for (var at = 0; at < coming.length; at++) {
            var kind = outset.kinds().get(at);
            for (var day = 0; day < outset.days(); day++) {
                for (var one = 0; one < coming[at][day]; one++) {
                    cases.put(next, at, day, day + kind.lead(), day + kind.days());
                    cases.draw(next++, kind.minutes(), kind.planned(), missing, normal, random);
                }
            }
        }
        return cases;
    }

    /** How many come of each kind on each day. */
    private static int[][] coming(Outset outset, UniformRandomProvider random) {
        var coming = new int[outset.kinds().size()][outset.days()];
        for (var at = 0; at < coming.length; at++) {
            var rates = outset.arrivals().drawn(outset.kinds().get(at).tier(), random);
            for (var first = 0; first < WEEK; first++) {
                var number = Randomness.poisson(random, rates[outset.weekday(first)]);
                for (var day = first; day < outset.days(); day += WEEK) {
                    coming[at][day] = number.sample();
                }
            }
        }
        return coming;
    }

    private void put(int at, int ofTier, int onDay, int readyOn, int by) {
        tier[at] = ofTier;
        received[at] = onDay;
        ready[at] = readyOn;
        target[at] = by;
    }

    private void draw(
            int at,
            RoomMinutes ofCase,
            double plannedFor,
            double missing,
            NormalizedGaussianSampler normal,
            UniformRandomProvider random) {
        planned[at] = plannedFor;
        minutes[at] = ofCase.at(normal.sample());
        misses[at] = inARow(missing, random.nextDouble());
    }

    /** How many appointments are missed before one is kept, each with probability {@code missing}: geometric, by inversion. */
    private static int inARow(double missing, double uniform) {
        return uniform >= missing ? 0 : (int) (Math.log(uniform) / Math.log(missing));
    }

    int size() {
        return tier.length;
    }

    /** The place of its tier among the kinds. */
    int tier(int at) {
        return tier[at];
    }

    /** Before the forecast it is negative. */
    int received(int at) {
        return received[at];
    }

    /** The first day on which it can be treated. */
    int ready(int at) {
        return ready[at];
    }

    int target(int at) {
        return target[at];
    }

    /** Minutes that are planned for it. */
    double planned(int at) {
        return planned[at];
    }

    /** Minutes that it takes. */
    double minutes(int at) {
        return minutes[at];
    }

    /** How many appointments the patient misses first. */
    int misses(int at) {
        return misses[at];
    }
}
