package limbqueue.booking;

import java.time.Duration;
import java.util.Optional;

/**
 * How long a plan is looked for.
 *
 * @param seed the same seed and limit give the same plan
 * @param steps 0 or more: each is a change that is tried; where two searches go on at once, of each of them
 * @param atMost an end by the clock, above 0, for a person who waits; with it a plan depends on how fast the machine is
 */
public record Search(long seed, int steps, Optional<Duration> atMost) {

    /** @throws IllegalArgumentException if there are fewer than no steps, or no time */
    public Search {
        if (steps < 0 || atMost.filter(time -> !time.isPositive()).isPresent()) {
            throw new IllegalArgumentException("a search needs steps and time: %d, %s".formatted(steps, atMost));
        }
    }

    /** A search that gives the same plan every time. */
    public static Search of(long seed, int steps) {
        return new Search(seed, steps, Optional.empty());
    }
}
