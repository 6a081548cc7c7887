package limbqueue.triage.anatomy;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;

/**
 * What a rule makes of one lesion for every way of answering the unknown details that it comes upon.
 *
 * @param <R> what the rule makes of it
 */
final class Ways<R> {

    private record Choice(Detail<?> detail, int index) {
        Object value() {
            return detail.choices().get(index);
        }
    }

    /** A place on the way after the same choices, and what lies beyond it. */
    private static final class Node<R> {
        private final Set<R> conclusions = new LinkedHashSet<>();
        private final List<Choice> choices = new ArrayList<>();
        private final List<Node<R>> children = new ArrayList<>();
    }

    private final Node<R> root = new Node<>();
    private final Map<String, String> asked = new LinkedHashMap<>();

    private Ways() {}

    /** Runs {@code rule} for every way of answering what it asks. */
    static <R> Ways<R> of(Function<Details, R> rule) {
        var ways = new Ways<R>();
        var path = new ArrayList<Choice>();
        do {
            ways.note(path, rule.apply(new Walk(path)));
        } while (advance(path));
        return ways;
    }

    Set<R> conclusions() {
        return root.conclusions;
    }

    /** The questions for the unknown details that some way comes upon and that can be asked, by path. */
    Map<String, String> asked() {
        return asked;
    }

    /**
     * Paths of the details whose answer makes a difference: with what was looked at before it answered alike, different
     * answers to it lead to different conclusions.
     */
    Set<String> decisive() {
        var decisive = new LinkedHashSet<String>();
        collect(root, decisive);
        return decisive;
    }

    private static <R> void collect(Node<R> node, Set<String> decisive) {
        if (node.children.isEmpty() || node.conclusions.size() == 1) {
            return;
        }
        if (node.children.stream().anyMatch(child -> !child.conclusions.equals(node.conclusions))) {
            decisive.add(node.choices.getFirst().detail().path());
        }
        node.children.forEach(child -> collect(child, decisive));
    }

    /** Choices at each place come in order, so a new child is always the next one. */
    private void note(List<Choice> path, R conclusion) {
        var node = root;
        node.conclusions.add(conclusion);
        for (var choice : path) {
            if (choice.index() == node.children.size()) {
                node.choices.add(choice);
                node.children.add(new Node<>());
                if (!choice.detail().ask().isEmpty()) {
                    asked.putIfAbsent(choice.detail().path(), choice.detail().ask());
                }
            }
            node = node.children.get(choice.index());
            node.conclusions.add(conclusion);
        }
    }

    /** Moves {@code path} on to the next way of answering; false when all have been tried. */
    private static boolean advance(List<Choice> path) {
        while (!path.isEmpty()) {
            var last = path.removeLast();
            if (last.index() + 1 < last.detail().choices().size()) {
                path.add(new Choice(last.detail(), last.index() + 1));
                return true;
            }
        }
        return false;
    }

    /** One run of the rule along a path of choices, which it extends by first choices. */
    private static final class Walk implements Details {

        private final List<Choice> path;
        private int next;

        Walk(List<Choice> path) {
            this.path = path;
        }

        @Override
        @SuppressWarnings("unchecked") // the choices of a detail are that detail's answers
        public <T> T of(Detail<T> detail) {
            if (detail.known().isPresent()) {
                return detail.known().get();
            }
            for (var i = 0; i < next; i++) {
                if (path.get(i).detail().path().equals(detail.path())) {
                    return (T) path.get(i).value();
                }
            }
            if (next == path.size()) {
                path.add(new Choice(detail, 0));
            }
            return (T) path.get(next++).value();
        }
    }
}
