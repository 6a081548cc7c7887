package limbqueue.triage.question;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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

    /** The fact looked at after the same answers to earlier facts, and what each answer to it leads to. */
    private static final class Node<R> {
        private final Set<R> conclusions = new LinkedHashSet<>();
        private final List<Node<R>> children = new ArrayList<>();
        private Optional<Fact<?>> fact = Optional.empty();
    }

    private record Choice(Fact<?> fact, int index) {}

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
     * For each fact whose answer makes a difference, the conclusions that answers to it can lead to: with the facts
     * looked at before it answered alike, different answers to it lead to different conclusions.
     */
    public Map<String, Set<R>> decisive() {
        var decisive = new LinkedHashMap<String, Set<R>>();
        collect(root, decisive);
        return decisive;
    }

    private void collect(Node<R> node, Map<String, Set<R>> decisive) {
        node.fact
                .filter(fact -> node.children.stream().anyMatch(child -> !child.conclusions.equals(node.conclusions)))
                .ifPresent(fact -> decisive.computeIfAbsent(fact.path(), path -> new LinkedHashSet<>())
                        .addAll(node.conclusions));
        node.children.forEach(child -> collect(child, decisive));
    }

    /** Choices at each place come in order, so a new child is always the next one. */
    private void note(List<Choice> path, R conclusion) {
        var node = root;
        node.conclusions.add(conclusion);
        for (var choice : path) {
            node.fact = Optional.of(choice.fact());
            if (choice.index() == node.children.size()) {
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
            if (last.index() + 1 < last.fact().choices().size()) {
                path.add(new Choice(last.fact(), last.index() + 1));
                return true;
            }
        }
        return false;
    }

    /** One run of the rules along a path of choices, which it extends by first choices. */
    private static final class Walk implements Answers {

        private final List<Choice> path;
        private final Map<String, Object> given = new HashMap<>();
        private int next;

        Walk(List<Choice> path) {
            this.path = path;
        }

        @Override
        @SuppressWarnings("unchecked") // an answer is kept under the path of the fact whose choice it is
        public <T> T of(Fact<T> fact) {
            if (fact.known().isPresent()) {
                return fact.known().get();
            }
            var earlier = given.get(fact.path());
            if (earlier != null) {
                return (T) earlier;
            }
            if (next == path.size()) {
                path.add(new Choice(fact, 0));
            }
            var answer = fact.choices().get(path.get(next).index());
            next++;
            given.put(fact.path(), answer);
            return answer;
        }
    }
}
