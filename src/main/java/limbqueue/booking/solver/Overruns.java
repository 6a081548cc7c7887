package limbqueue.booking.solver;

import java.util.Arrays;
import limbqueue.booking.StepMinutes;

/** What {@link StepMinutes#overrun} gives, remembered: a search asks for the same few thousand sums over and over. */
final class Overruns {

    private static final int REMEMBERED = 1 << 13;

    private final long[] expected = new long[REMEMBERED];
    private final long[] variance = new long[REMEMBERED];
    private final int[] minutes = new int[REMEMBERED];
    private final long[] overrun = new long[REMEMBERED];

    Overruns() {
        Arrays.fill(expected, -1);
    }

    /** By how many minutes a session of {@code minutes} would have to be longer. */
    long of(long expected, long variance, int minutes) {
        var at = Long.hashCode((expected * 31 + variance) * 31 + minutes) & (REMEMBERED - 1);
        if (this.expected[at] != expected || this.variance[at] != variance || this.minutes[at] != minutes) {
            this.expected[at] = expected;
            this.variance[at] = variance;
            this.minutes[at] = minutes;
            this.overrun[at] = StepMinutes.overrun(expected, variance, minutes);
        }
        return overrun[at];
    }
}
