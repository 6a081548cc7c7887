package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * Looks through the few entries of a list. Lists in a referral hold none, one or two entries, and they are looked through a
 * hundred times in one triage: to set up a stream each time costs more than what it is set up for.
 */
public final class Entries {

    private Entries() {}

    /** Whether {@code condition} holds of one of {@code entries} or more. */
    public static <T> boolean any(Collection<T> entries, Predicate<? super T> condition) {
        for (var entry : entries) {
            if (condition.test(entry)) {
                return true;
            }
        }
        return false;
    }

    /** Whether {@code condition} holds of all {@code entries}, as it does when there are none. */
    public static <T> boolean all(Collection<T> entries, Predicate<? super T> condition) {
        for (var entry : entries) {
            if (!condition.test(entry)) {
                return false;
            }
        }
        return true;
    }

    /** How many of {@code entries} {@code condition} holds of. */
    public static <T> int count(Collection<T> entries, Predicate<? super T> condition) {
        var count = 0;
        for (var entry : entries) {
            if (condition.test(entry)) {
                count++;
            }
        }
        return count;
    }

    /** Those of {@code entries} of which {@code condition} holds, in their order. */
    public static <T> List<T> those(Collection<T> entries, Predicate<? super T> condition) {
        var those = new ArrayList<T>(entries.size());
        for (var entry : entries) {
            if (condition.test(entry)) {
                those.add(entry);
            }
        }
        return List.copyOf(those);
    }

    /** What {@code view} makes of each of {@code entries}, in their order. */
    public static <T, R> List<R> each(Collection<T> entries, Function<? super T, ? extends R> view) {
        var each = new ArrayList<R>(entries.size());
        for (var entry : entries) {
            each.add(view.apply(entry));
        }
        return List.copyOf(each);
    }
}
