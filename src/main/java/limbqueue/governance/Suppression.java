package limbqueue.governance;

import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Which counts of a list may be shown beside their total, so that none that is too small can be worked out.
 *
 * <p>Too small is every count from 1 to 9 (a threshold rule; OECD, Glossary of Statistical Terms, "threshold rule", where the
 * number differs by agency; ten is that of WISQARS of the Centers for Disease Control and Prevention). Since what is left out
 * alone follows from the total, more is held back with it (secondary suppression; Handbook on Statistical Disclosure
 * Control, 2nd edition, 2024). Which counts these are must not depend on how large they are: else a reader who knows the
 * rule learns from the choice. So the list is taken in pairs of neighbours, an odd last one with the pair before it. A pair
 * in which one is too small is held back whole, its zeros too; and while all that is held back comes to less than ten
 * together, the first pair that is still shown goes with it. A list of fewer than ten in all is held back with its total.
 */
final class Suppression {

    /** Fewest that are shown. */
    static final int FEWEST = 10;

    private Suppression() {}

    /**
     * What is shown.
     *
     * @param total empty where the whole list is held back
     * @param counts in their order; empty for one that is held back
     */
    record Shown(Optional<Integer> total, List<Optional<Integer>> counts) {}

    static Shown of(List<Integer> counts) {
        return of(counts, FEWEST);
    }

    /** @param fewest the smallest count that is shown, at least 3 */
    static Shown of(List<Integer> counts, int fewest) {
        var total = counts.stream().mapToInt(Integer::intValue).sum();
        if (total < fewest) {
            return new Shown(
                    Optional.empty(),
                    counts.stream().map(_ -> Optional.<Integer>empty()).toList());
        }
        var held = new boolean[counts.size()];
        for (var at = 0; at < held.length; at++) {
            if (counts.get(at) > 0 && counts.get(at) < fewest) {
                holdPair(held, at);
            }
        }
        while (anyOf(held) && together(counts, held) < fewest) {
            holdPair(
                    held,
                    IntStream.range(0, held.length)
                            .filter(at -> !held[at])
                            .findFirst()
                            .orElseThrow());
        }
        return new Shown(
                Optional.of(total),
                IntStream.range(0, held.length)
                        .mapToObj(at -> held[at] ? Optional.<Integer>empty() : Optional.of(counts.get(at)))
                        .toList());
    }

    private static void holdPair(boolean[] held, int at) {
        var first = Math.max(0, Math.min(at - at % 2, held.length - held.length % 2 - 2));
        var oddOne = first + 3 == held.length;
        for (var other = first; other < Math.min(held.length, first + (oddOne ? 3 : 2)); other++) {
            held[other] = true;
        }
    }

    private static boolean anyOf(boolean[] held) {
        return IntStream.range(0, held.length).anyMatch(at -> held[at]);
    }

    private static int together(List<Integer> counts, boolean[] held) {
        return IntStream.range(0, held.length)
                .filter(at -> held[at])
                .map(counts::get)
                .sum();
    }
}
