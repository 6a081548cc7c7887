package limbqueue.triage.anatomy;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.question.Diagram;
import limbqueue.triage.question.Reading;

/**
 * Several lesions under one rule. The rule looks at one lesion at a time and adds it to a whole that remembers no more
 * than the rule can tell apart; so all ways of answering for each lesion are explored, and of all their combinations only
 * the different wholes. A hundred open facts cost a few hundred wholes, where their combinations could not be counted.
 *
 * @param <L> what the rule sees in one lesion
 * @param <W> what it remembers of all lesions together
 */
final class Combination<L, W> {

    /** A rule about lesions together. The order of lesions must not matter to it. */
    interface Rule<L, W> {

        W nothing();

        L look(LesionFacts lesion, LesionAnswers answers);

        W with(W whole, L lesion);

        /** {@code whole} without what no further lesion can make matter. */
        W reduced(W whole);

        /** Arteries of a group are remembered together; their sums are of no interest to another group. */
        int group(Segment segment);

        /** {@code whole} when no further lesion of {@code group} will come. */
        W settled(W whole, int group);
    }

    private final Rule<L, W> rule;
    private final List<LesionFacts> lesions;
    private final IdentityHashMap<LesionFacts, Explored<L>> explored = new IdentityHashMap<>();

    Combination(Rule<L, W> rule, List<LesionFacts> lesions) {
        this.rule = rule;
        this.lesions = lesions.stream()
                .sorted(Comparator.comparing(lesion -> rule.group(lesion.segment())))
                .toList();
    }

    /** All lesions together, the unknown answered by {@code acting}. */
    W actedOn(Acting acting) {
        var whole = rule.nothing();
        for (var lesion : lesions) {
            whole = rule.with(whole, rule.look(lesion, acting));
        }
        return whole;
    }

    /** What {@code conclude} makes of every whole that some answers lead to. */
    <R> Set<R> possible(Function<W, R> conclude) {
        var conclusions = new LinkedHashSet<R>();
        wholes(lesions, -1, this::looks).forEach(whole -> conclusions.add(conclude.apply(whole)));
        return conclusions;
    }

    /** The questions whose answer changes a conclusion, whatever the answers to the others, by path. */
    Map<String, String> decisive(Function<W, ?> conclude) {
        var decisive = new LinkedHashMap<String, String>();
        for (var lesion : lesions) {
            var asked = explored(lesion).asked();
            if (asked.isEmpty()) {
                continue;
            }
            var found = decisive(lesion, asked.keySet(), conclude, this::extremes);
            if (!found.containsAll(asked.keySet())) {
                found = decisive(lesion, asked.keySet(), conclude, this::looks);
            }
            for (var fact : asked.values()) {
                if (found.contains(fact.field())) {
                    decisive.put(fact.path(), fact.ask());
                }
            }
        }
        return decisive;
    }

    /** Of the fields {@code asked} those that change a conclusion while each of the other lesions is as {@code views} has it. */
    private Set<String> decisive(
            LesionFacts lesion, Set<String> asked, Function<W, ?> conclude, Function<LesionFacts, Set<L>> views) {
        var group = rule.group(lesion.segment());
        var others = new ArrayList<>(lesions);
        others.remove(lesion);
        others.sort(Comparator.comparing(other -> rule.group(other.segment()) == group));
        var found = new HashSet<String>();
        for (var whole : wholes(others, group, views)) {
            found.addAll(explored(lesion)
                    .open()
                    .decisiveFields(look -> conclude.apply(rule.settled(rule.with(whole, look), group))));
            if (found.containsAll(asked)) {
                break;
            }
        }
        return found;
    }

    /** @param open the group of which a further lesion will come; its lesions are the last ones */
    private Set<W> wholes(List<LesionFacts> ordered, int open, Function<LesionFacts, Set<L>> views) {
        Set<W> wholes = Set.of(rule.nothing());
        for (var i = 0; i < ordered.size(); i++) {
            var group = rule.group(ordered.get(i).segment());
            var last = i + 1 == ordered.size() || rule.group(ordered.get(i + 1).segment()) != group;
            var settles = last && group != open;
            var next = new LinkedHashSet<W>();
            for (var look : views.apply(ordered.get(i))) {
                for (var whole : wholes) {
                    var grown = rule.reduced(rule.with(whole, look));
                    next.add(settles ? rule.settled(grown, group) : grown);
                }
            }
            wholes = next;
        }
        return wholes;
    }

    /**
     * @param open what the rule sees in a lesion, by how its unknown facts are answered
     * @param looks everything that the rule may see in it
     * @param asked the unknown facts of the lesion that some way of answering comes upon and that somebody can be asked, by
     *     field
     */
    private record Explored<L>(Reading<L> open, Set<L> looks, Map<String, LesionFact<?>> asked) {}

    private Explored<L> explored(LesionFacts lesion) {
        return explored.computeIfAbsent(lesion, this::explore);
    }

    private Explored<L> explore(LesionFacts lesion) {
        var asked = new LinkedHashMap<String, LesionFact<?>>();
        var looks = Diagram.of(answers -> {
            var exploring = LesionAnswers.exploring(answers);
            return rule.look(lesion, new LesionAnswers() {
                @Override
                public <T> T of(LesionFact<T> fact) {
                    if (fact.known().isEmpty() && fact.canBeAsked()) {
                        asked.putIfAbsent(fact.field(), fact);
                    }
                    return exploring.of(fact);
                }
            });
        });
        return new Explored<>(looks.readOpen(), new LinkedHashSet<>(looks.conclusions()), asked);
    }

    private Set<L> looks(LesionFacts lesion) {
        return explored(lesion).looks();
    }

    /** Two of the looks, which most often are enough to see that an answer about another lesion matters. */
    private Set<L> extremes(LesionFacts lesion) {
        var all = List.copyOf(looks(lesion));
        var extremes = new LinkedHashSet<L>();
        extremes.add(all.getFirst());
        extremes.add(all.getLast());
        return extremes;
    }
}
