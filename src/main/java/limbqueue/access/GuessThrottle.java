package limbqueue.access;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Slows down guessing: after five wrong guesses under a key (a sign-in name, an address of the network), each further one makes
 * the key wait, half a minute first and at most a quarter of an hour. Names that nobody has wait just the same, so that the
 * wait betrays nothing.
 */
public final class GuessThrottle {

    private static final int FREE_ATTEMPTS = 5;
    private static final Duration FIRST_WAIT = Duration.ofSeconds(30);
    private static final Duration LONGEST_WAIT = Duration.ofMinutes(15);
    private static final int KEYS_REMEMBERED = 10_000;

    private record Failures(int count, Instant until) {}

    private final Clock clock;

    /** Least recently failed first, so that a flood of keys forgets the oldest. */
    private final Map<String, Failures> failures = new LinkedHashMap<>();

    public GuessThrottle(Clock clock) {
        this.clock = clock;
    }

    /** How long this key still has to wait, if at all. Blanks around it and upper case do not matter. */
    public synchronized Optional<Duration> wait(String key) {
        var failed = failures.get(plain(key));
        if (failed == null) {
            return Optional.empty();
        }
        var left = Duration.between(clock.instant(), failed.until());
        return left.isPositive() ? Optional.of(left) : Optional.empty();
    }

    /** Counts a wrong guess. */
    public synchronized void failed(String key) {
        var plain = plain(key);
        var before = failures.remove(plain);
        var now = clock.instant();
        var count = before == null || before.until().plus(LONGEST_WAIT).isBefore(now) ? 1 : before.count() + 1;
        failures.put(plain, new Failures(count, now.plus(waitAfter(count))));
        if (failures.size() > KEYS_REMEMBERED) {
            failures.remove(failures.keySet().iterator().next());
        }
    }

    /** Forgives the wrong guesses. */
    public synchronized void succeeded(String key) {
        failures.remove(plain(key));
    }

    private static Duration waitAfter(int count) {
        var beyond = count - FREE_ATTEMPTS;
        if (beyond < 0) {
            return Duration.ZERO;
        }
        var wait = FIRST_WAIT.multipliedBy(1L << Math.min(beyond, 10));
        return wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait;
    }

    private static String plain(String key) {
        return key.strip().toLowerCase(Locale.ROOT);
    }
}
