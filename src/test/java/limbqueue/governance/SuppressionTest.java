package limbqueue.governance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import limbqueue.governance.Suppression.Shown;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Whoever reads a list knows what is shown, the total, and the rule by which counts are held back. What can be worked out
 * from that is what all lists have in common that would be shown in the same way.
 */
class SuppressionTest {

    /** How many are divided up in every way, by among how many counts: a few thousand ways each. */
    private static final Map<Integer, Integer> MOST_TRIED = Map.of(2, 1_000, 3, 80, 4, 30);

    private static Optional<Integer> held() {
        return Optional.empty();
    }

    private static List<Optional<Integer>> shown(Integer... counts) {
        return Suppression.of(List.of(counts)).counts();
    }

    @Test
    void countsFromOneToNineAreHeldBackWithTheirNeighbour() {
        assertThat(shown(10, 25, 0, 11))
                .containsExactly(Optional.of(10), Optional.of(25), Optional.of(0), Optional.of(11));
        assertThat(shown(10, 25, 9, 11)).containsExactly(Optional.of(10), Optional.of(25), held(), held());
        assertThat(shown(1, 25, 30, 11)).containsExactly(held(), held(), Optional.of(30), Optional.of(11));
    }

    @Test
    void anOddLastOneGoesWithThePairBeforeIt() {
        assertThat(shown(30, 20, 40, 4, 11)).containsExactly(Optional.of(30), Optional.of(20), held(), held(), held());
        assertThat(shown(30, 20, 4)).containsExactly(held(), held(), held());
    }

    @Test
    void thoseHeldBackComeToTenTogether() {
        assertThat(shown(40, 50, 60, 70, 2, 3))
                .containsExactly(held(), held(), Optional.of(60), Optional.of(70), held(), held());
        assertThat(shown(40, 50, 60, 70, 2, 0))
                .as("with nobody beside it")
                .containsExactly(held(), held(), Optional.of(60), Optional.of(70), held(), held());
    }

    @Test
    void aListOfFewerThanTenIsHeldBackAsAWhole() {
        assertThat(Suppression.of(List.of(4, 0, 0))).isEqualTo(new Shown(held(), List.of(held(), held(), held())));
        assertThat(Suppression.of(List.of(9)).total()).isEmpty();
        assertThat(Suppression.of(List.<Integer>of()).total()).isEmpty();
    }

    /** Every list of up to four counts, with small thresholds, against all others of its total. */
    @ParameterizedTest(name = "fewest shown: {0}")
    @ValueSource(ints = {3, 4, 5})
    void noCountHeldBackCanBeWorkedOutInAnySmallList(int fewest) {
        for (var length = 1; length <= 4; length++) {
            for (var total = 0; total <= 4 * fewest; total++) {
                var alike = new HashMap<Shown, List<List<Integer>>>();
                lists(
                        length,
                        total,
                        list -> alike.computeIfAbsent(Suppression.of(list, fewest), _ -> new ArrayList<>())
                                .add(list));
                alike.forEach((shown, those) -> {
                    if (shown.total().isPresent()) {
                        assertThat(givenAway(shown, those))
                                .as("%s is %s", shown, those)
                                .isEmpty();
                    }
                });
            }
        }
    }

    /** Of a list that is held back as a whole the total may be known from elsewhere; zeros and counts may not follow. */
    @Test
    void ofAListHeldBackAsAWholeNoCountFollowsFromItsTotal() {
        for (var length = 2; length <= 4; length++) {
            for (var total = 1; total < 5; total++) {
                var those = new ArrayList<List<Integer>>();
                lists(length, total, those::add);
                assertThat(givenAway(Suppression.of(those.getFirst(), 5), those))
                        .isEmpty();
            }
        }
    }

    /** Random lists as a practice has them, by ten; every list that would be shown in the same way is tried. */
    @Test
    void noCountHeldBackCanBeWorkedOutInRandomLists() {
        var random = new Random(20_261_126);
        var withSomethingHeldBack = 0;
        for (var run = 0; run < 400; run++) {
            var list = random.ints(2 + random.nextInt(5), 0, 6 + random.nextInt(40))
                    .boxed()
                    .toList();
            var shown = Suppression.of(list);
            var held = heldBack(shown);
            var together = held.stream().mapToInt(list::get).sum();
            if (shown.total().isEmpty() || held.isEmpty() || together > MOST_TRIED.getOrDefault(held.size(), 0)) {
                continue;
            }
            withSomethingHeldBack++;
            assertThat(held).as("%s", list).hasSizeGreaterThan(1);
            assertThat(together).as("%s", list).isGreaterThanOrEqualTo(10);
            var those = alike(list, shown, held);
            assertThat(those).contains(list);
            assertThat(givenAway(shown, those)).as("%s", list).isEmpty();
        }
        assertThat(withSomethingHeldBack).isGreaterThan(150);
    }

    /** The reader who works things out does so where only the first step is taken, and where the smallest is the second. */
    @Test
    void theFirstStepAloneGivesCountsAway() {
        var list = List.of(30, 4, 20);
        var firstStep = new Shown(Optional.of(54), List.of(Optional.of(30), Optional.empty(), Optional.of(20)));
        var those = new ArrayList<List<Integer>>();
        lists(3, 54, candidate -> {
            if (agrees(candidate, firstStep)) {
                those.add(candidate);
            }
        });
        assertThat(givenAway(firstStep, those)).containsExactly(Map.entry(1, 4));
        assertThat(those).containsExactly(list);
    }

    /** Places of counts that are held back and have one value in all lists. */
    private static Map<Integer, Integer> givenAway(Shown shown, List<List<Integer>> those) {
        var given = new HashMap<Integer, Integer>();
        for (var at : heldBack(shown)) {
            Set<Integer> values = new HashSet<>();
            those.forEach(list -> values.add(list.get(at)));
            if (values.size() == 1) {
                given.put(at, values.iterator().next());
            }
        }
        return given;
    }

    private static List<Integer> heldBack(Shown shown) {
        return IntStream.range(0, shown.counts().size())
                .filter(at -> shown.counts().get(at).isEmpty())
                .boxed()
                .toList();
    }

    private static boolean agrees(List<Integer> list, Shown shown) {
        return IntStream.range(0, list.size())
                .allMatch(at -> shown.counts()
                        .get(at)
                        .filter(count -> !count.equals(list.get(at)))
                        .isEmpty());
    }

    /** Every list that has the counts shown of {@code list} and would be shown as it is. */
    private static List<List<Integer>> alike(List<Integer> list, Shown shown, List<Integer> held) {
        var those = new ArrayList<List<Integer>>();
        lists(held.size(), held.stream().mapToInt(list::get).sum(), filling -> {
            var candidate = new ArrayList<>(list);
            for (var at = 0; at < held.size(); at++) {
                candidate.set(held.get(at), filling.get(at));
            }
            if (Suppression.of(candidate).equals(shown)) {
                those.add(List.copyOf(candidate));
            }
        });
        return those;
    }

    /** Every list of so many counts with this total. */
    private static void lists(int length, int total, Consumer<List<Integer>> use) {
        fill(new ArrayList<>(), length, total, use);
    }

    private static void fill(List<Integer> begun, int length, int left, Consumer<List<Integer>> use) {
        if (length == 1) {
            begun.add(left);
            use.accept(List.copyOf(begun));
            begun.removeLast();
            return;
        }
        for (var count = 0; count <= left; count++) {
            begun.add(count);
            fill(begun, length - 1, left - count, use);
            begun.removeLast();
        }
    }
}
