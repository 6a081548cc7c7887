package limbqueue.governance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import limbqueue.triage.Tier;

/**
 * How often decisions are what was proposed.
 *
 * @param byTier by the tier proposed, most urgent first
 * @param byPerson by who decided, in the order of their names
 * @param byRule by each rule that spoke in the proposal; those surest to be overruled first
 */
public record Agreement(
        Proportion all, List<Line<Tier>> byTier, List<Line<String>> byPerson, List<Line<String>> byRule) {

    /** @param agreed with how many of the decisions about it the proposal was right */
    public record Line<T>(T of, Proportion agreed) {

        public Proportion overruled() {
            return new Proportion(agreed.all() - agreed.of(), agreed.all());
        }
    }

    /**
     * By the lower limit of the interval of the share that was overruled: one of one says less than twenty of forty.
     */
    private static final Comparator<Line<String>> SUREST_OVERRULED_FIRST = Comparator.comparingDouble(
                    (Line<String> line) -> -line.overruled().interval().low())
            .thenComparing(line -> -line.agreed().all())
            .thenComparing(Line::of);

    public static Agreement of(List<Judgement> judgements) {
        var tiers = new TreeMap<Tier, Tally>();
        var people = new TreeMap<Long, Tally>();
        var names = new HashMap<Long, String>();
        var rules = new HashMap<String, Tally>();
        var all = new Tally();
        for (var one : judgements) {
            all.add(one.agrees());
            add(tiers, one.proposed(), one.agrees());
            add(people, one.person(), one.agrees());
            names.put(one.person(), one.personName());
            one.rules().forEach(rule -> add(rules, rule, one.agrees()));
        }
        var byPerson = new ArrayList<>(lines(people, person -> names.getOrDefault(person, "")));
        byPerson.sort(Comparator.comparing(Line::of));
        var byRule = new ArrayList<>(lines(rules, Function.identity()));
        byRule.sort(SUREST_OVERRULED_FIRST);
        return new Agreement(all.proportion(), lines(tiers, Function.identity()), byPerson, byRule);
    }

    private static <K> void add(Map<K, Tally> tallies, K key, boolean agrees) {
        tallies.computeIfAbsent(key, _ -> new Tally()).add(agrees);
    }

    private static <K, T> List<Line<T>> lines(Map<K, Tally> tallies, Function<K, T> words) {
        return tallies.entrySet().stream()
                .map(entry ->
                        new Line<>(words.apply(entry.getKey()), entry.getValue().proportion()))
                .toList();
    }

    private static final class Tally {

        private int agreed;
        private int all;

        void add(boolean agrees) {
            agreed += agrees ? 1 : 0;
            all++;
        }

        Proportion proportion() {
            return new Proportion(agreed, all);
        }
    }
}
