package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/**
 * Everything that the unknown facts still allow. The rules are run once for each way of answering the unknown facts
 * that they look at; since they look only at what matters on their way, that is far fewer than all combinations, and
 * what is found is reached by some answers and nothing else is.
 *
 * @param <R> what the rules conclude
 */
public final class Exploration<R> {

    /** What is chosen at a place on the way: an answer to a fact, or a conclusion of a part. */
    private sealed interface Fork {

        List<?> choices();
    }

    private record FactFork(Fact<?> fact) implements Fork {
        @Override
        public List<?> choices() {
            return fact.choices();
        }
    }

    private record PartFork(Part<?> part, List<?> choices) implements Fork {}

    private record Choice(Fork fork, int index) {
        Object value() {
            return fork.choices().get(index);
        }
    }

    /** A place on the way after the same choices, and what lies beyond it. */
    private static final class Node<R> {
        private final Set<R> conclusions = new LinkedHashSet<>();
        private final List<Choice> choices = new ArrayList<>();
        private final List<Node<R>> children = new ArrayList<>();
    }

    private final Node<R> root = new Node<>();

    private Exploration() {}

    /** Runs {@code rules} for every way of answering what they ask. */
    public static <R> Exploration<R> of(Function<Answers, R> rules) {
        var exploration = new Exploration<R>();
        var path = new ArrayList<Choice>();
        do {
            exploration.note(path, rules.apply(new Walk(path)));
        } while (advance(path));
        return exploration;
    }

    /** Every conclusion that some way of answering leads to. */
    public Set<R> conclusions() {
        return root.conclusions;
    }

    /**
     * For each fact whose answer makes a difference, by path, the conclusions that answers to it can lead to: with what
     * was looked at before it answered alike, different answers to it lead to different conclusions.
     */
    public Map<String, Set<R>> decisive() {
        var decisive = new LinkedHashMap<String, Set<R>>();
        collect(root, node -> node.conclusions, decisive);
        return decisive;
    }

    /** {@code leadsTo} says what a place of this exploration leads to in the one that it is a part of. */
    private static <Q, R> void collect(Node<Q> node, Function<Node<Q>, Set<R>> leadsTo, Map<String, Set<R>> decisive) {
        var here = leadsTo.apply(node);
        if (node.children.isEmpty() || here.size() == 1) {
            return;
        }
        switch (node.choices.getFirst().fork()) {
            case FactFork(var fact) -> {
                if (node.children.stream()
                        .anyMatch(child -> !leadsTo.apply(child).equals(here))) {
                    decisive.computeIfAbsent(fact.path(), path -> new LinkedHashSet<>())
                            .addAll(here);
                }
            }
            case PartFork fork ->
                collectWithin(fork.part().explore(), fork.choices(), node.children, leadsTo, decisive);
        }
        node.children.forEach(child -> collect(child, leadsTo, decisive));
    }

    /** The facts of a part matter as far as its conclusions do: {@code beyond} lies what each of them leads to. */
    private static <P, Q, R> void collectWithin(
            Exploration<P> part,
            List<?> conclusions,
            List<Node<Q>> beyond,
            Function<Node<Q>, Set<R>> leadsTo,
            Map<String, Set<R>> decisive) {
        collect(
                part.root,
                node -> {
                    var all = new LinkedHashSet<R>();
                    node.conclusions.forEach(
                            conclusion -> all.addAll(leadsTo.apply(beyond.get(conclusions.indexOf(conclusion)))));
                    return all;
                },
                decisive);
    }

    /** Choices at each place come in order, so a new child is always the next one. */
    private void note(List<Choice> path, R conclusion) {
        var node = root;
        node.conclusions.add(conclusion);
        for (var choice : path) {
            if (choice.index() == node.children.size()) {
                node.choices.add(choice);
                node.children.add(new Node<>());
            }
            node = node.children.get(choice.index());
            node.conclusions.add(conclusion);
        }
    }

    /** Moves {@code path} on to the next way of answering; false when all have been tried. */
    private static boolean advance(List<Choice> path) {
        while (!path.isEmpty()) {
            var last = path.removeLast();
            if (last.index() + 1 < last.fork().choices().size()) {
                path.add(new Choice(last.fork(), last.index() + 1));
                return true;
            }
        }
        return false;
    }

    /** One run of the rules along a path of choices, which it extends by first choices. */
    private static final class Walk implements Answers {

        private final List<Choice> path;
        private int next;

        Walk(List<Choice> path) {
            this.path = path;
        }

        @Override
        @SuppressWarnings("unchecked") // the choices of a fact's fork are that fact's answers
        public <T> T of(Fact<T> fact) {
            if (fact.known().isPresent()) {
                return fact.known().get();
            }
            for (var i = 0; i < next; i++) {
                if (path.get(i).fork() instanceof FactFork(var earlier)
                        && earlier.path().equals(fact.path())) {
                    return (T) path.get(i).value();
                }
            }
            if (next == path.size()) {
                path.add(new Choice(new FactFork(fact), 0));
            }
            return (T) path.get(next++).value();
        }

        @Override
        @SuppressWarnings("unchecked") // the choices of a part's fork are that part's conclusions
        public <T> T of(Part<T> part) {
            var conclusions = part.explore().conclusions();
            if (conclusions.size() == 1) {
                return conclusions.iterator().next();
            }
            for (var i = 0; i < next; i++) {
                if (path.get(i).fork() instanceof PartFork(var earlier, var choices) && earlier == part) {
                    return (T) path.get(i).value();
                }
            }
            if (next == path.size()) {
                path.add(new Choice(new PartFork(part, List.copyOf(conclusions)), 0));
            }
            return (T) path.get(next++).value();
        }
    }
}
