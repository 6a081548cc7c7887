package limbqueue.dispatch;

import java.time.Duration;
import java.util.Optional;

/**
 * How long to wait after an attempt that failed for a reason that may pass: a minute, doubled each time, four hours at most,
 * for a little more than a day. The figures are common practice, no source; RFC 5321, section 4.5.4.1, asks mail servers
 * for half an hour and four or five days, but here somebody waits to learn that a letter did not leave.
 */
final class BackOff {

    static final Duration FIRST = Duration.ofMinutes(1);
    static final Duration LONGEST = Duration.ofHours(4);
    static final int MOST_ATTEMPTS = 14;

    private BackOff() {}

    /**
     * The wait before the next attempt; nothing if there is none.
     *
     * @param attempts made so far, from 1 on
     */
    static Optional<Duration> after(int attempts) {
        if (attempts >= MOST_ATTEMPTS) {
            return Optional.empty();
        }
        var doubled = FIRST.multipliedBy(1L << Math.min(attempts - 1, 20));
        return Optional.of(doubled.compareTo(LONGEST) > 0 ? LONGEST : doubled);
    }
}
