package limbqueue.triage.anatomy;

import java.util.List;
import java.util.TreeSet;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Limits;

/**
 * The limits that the lengths of a region are compared with, and lengths that stand for all lengths: none, and the last
 * and first on either side of each limit. Sums of lengths turn where all of them stand at one end of what they may be, so
 * these ends are enough as long as no limit is further from the next than a sum may jump over; the tests fill lengths in
 * fine steps.
 *
 * <p>Lengths are whole nanometres, so that sums of decimal fractions of a millimetre are exact.
 */
record Lengths(List<Long> choices) {

    private static final double PER_MILLIMETRE = 1e6;

    static long of(double millimetres) {
        return Math.round(millimetres * PER_MILLIMETRE);
    }

    static long of(Limits limits, Limit limit) {
        return of(limits.of(limit));
    }

    /** Lengths on either side of limits of which the limit itself belongs to the shorter side. */
    static Lengths atMost(Limits limits, Limit... atMost) {
        var lengths = new TreeSet<>(List.of(0L));
        for (var limit : atMost) {
            var length = of(limits, limit);
            lengths.add(length);
            lengths.add(length + 1);
        }
        return new Lengths(List.copyOf(lengths));
    }

    /** Lengths on either side of limits of which the limit itself belongs to the longer side, besides these. */
    Lengths lessThan(Limits limits, Limit... lessThan) {
        var lengths = new TreeSet<>(choices);
        for (var limit : lessThan) {
            var length = of(limits, limit);
            lengths.add(length - 1);
            lengths.add(length);
        }
        return new Lengths(List.copyOf(lengths));
    }

    /** The most serious length. */
    long longest() {
        return choices.getLast();
    }

    /** {@code one} and {@code other} together, no further than a limit can tell. */
    static long sum(long one, long other, long limit) {
        return Math.min(one + other, limit + 1);
    }
}
