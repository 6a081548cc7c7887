package limbqueue.referral;

import java.time.Instant;
import java.util.List;

/**
 * A referral that waits and whose proposal moved since a physician last saw it.
 *
 * @param steps the moves that nobody has seen, oldest first; never empty
 */
public record Moved(long referralId, List<Move> steps) {

    public Moved {
        steps = List.copyOf(steps);
    }

    /** Where the referral was put when a physician last saw it, or when it was put before one. */
    public Placing before() {
        return steps.getFirst().before();
    }

    public Placing after() {
        return steps.getLast().after();
    }

    /** When it first moved. */
    public Instant since() {
        return steps.getFirst().at();
    }

    /** The newest of the steps; whoever has seen this has seen all of them. */
    public long upTo() {
        return steps.getLast().id();
    }
}
