package limbqueue.access;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * Slows down guessing: after five wrong passwords for a name, each further one makes the name wait, half a minute first and
 * at most a quarter of an hour. Names that nobody has wait just the same, so that the wait betrays nothing.
 */
final class SignInThrottle {

    private static final int FREE_ATTEMPTS = 5;
    private static final Duration FIRST_WAIT = Duration.ofSeconds(30);
    private static final Duration LONGEST_WAIT = Duration.ofMinutes(15);
    private static final int NAMES_REMEMBERED = 10_000;

    private record Failures(int count, Instant until) {}

    private final Clock clock;

    /** Least recently failed first, so that a flood of names forgets the oldest. */
    private final Map<String, Failures> failures = new LinkedHashMap<>();

    SignInThrottle(Clock clock) {
        this.clock = clock;
    }

    /** How long this name still has to wait, if at all. */
    synchronized Optional<Duration> wait(String signInName) {
        var failed = failures.get(key(signInName));
        if (failed == null) {
            return Optional.empty();
        }
        var left = Duration.between(clock.instant(), failed.until());
        return left.isPositive() ? Optional.of(left) : Optional.empty();
    }

    synchronized void failed(String signInName) {
        var key = key(signInName);
        var before = failures.remove(key);
        var now = clock.instant();
        var count = before == null || before.until().plus(LONGEST_WAIT).isBefore(now) ? 1 : before.count() + 1;
        failures.put(key, new Failures(count, now.plus(waitAfter(count))));
        if (failures.size() > NAMES_REMEMBERED) {
            failures.remove(failures.keySet().iterator().next());
        }
    }

    synchronized void succeeded(String signInName) {
        failures.remove(key(signInName));
    }

    private static Duration waitAfter(int count) {
        var beyond = count - FREE_ATTEMPTS;
        if (beyond < 0) {
            return Duration.ZERO;
        }
        var wait = FIRST_WAIT.multipliedBy(1L << Math.min(beyond, 10));
        return wait.compareTo(LONGEST_WAIT) > 0 ? LONGEST_WAIT : wait;
    }

    private static String key(String signInName) {
        return signInName.strip().toLowerCase(Locale.ROOT);
    }
}
