package limbqueue.referral.ui;

import java.util.ArrayDeque;
import java.util.Collection;
import java.util.Deque;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.referral.ui.FieldKind.Entries;
import tools.jackson.databind.JsonNode;

/**
 * What was changed in a draft, step by step, to be taken back and made again. What is typed into one field without a
 * change elsewhere in between is one step. A list is one value here: its entries move up when one goes.
 */
final class EditHistory {

    private static final int MOST_STEPS = 200;

    private final Draft draft;
    private final Map<String, Optional<JsonNode>> known = new HashMap<>();
    private final Deque<Step> done = new ArrayDeque<>();
    private final Deque<Step> undone = new ArrayDeque<>();
    private String lastPath = "";

    /** What a value was and has become; empty where it was not known. */
    private record Change(Optional<JsonNode> before, Optional<JsonNode> after) {}

    /**
     * One step.
     *
     * @param changes by the path of the value or list
     * @param words what was changed
     * @param path where to look when it is taken back
     */
    private record Step(Map<String, Change> changes, String words, String path) {}

    /**
     * A step that was taken back, or made again.
     *
     * @param roots the paths of the values and lists that are others now
     * @param words what was changed
     * @param path where to look
     */
    record Turned(Collection<String> roots, String words, String path) {}

    /** @param roots the paths of the single values and lists whose changes count */
    EditHistory(Draft draft, Collection<String> roots) {
        this.draft = draft;
        roots.forEach(root -> known.put(root, draft.get(root)));
    }

    /** Keeps what the value at {@code path} was before the change that was just made. */
    void noticed(String path) {
        var root = root(path);
        var before = known.get(root);
        var now = draft.get(root);
        if (before == null || before.equals(now)) {
            return;
        }
        undone.clear();
        known.put(root, now);
        var last = done.peek();
        var begun = last != null && path.equals(lastPath) ? last.changes().get(root) : null;
        if (begun == null) {
            push(new Step(Map.of(root, new Change(before, now)), FieldWords.of(path), path));
        } else {
            done.pop();
            if (!begun.before().equals(now)) {
                push(new Step(Map.of(root, new Change(begun.before(), now)), FieldWords.of(path), path));
            }
        }
        lastPath = path;
    }

    /** Keeps what the list at {@code root} was before entries came or went, or before it was answered. */
    void listChanged(String root) {
        severalChanged(List.of(root), listWords(root, draft.get(root)));
    }

    /** Keeps what these values were before they were changed together. */
    void severalChanged(Collection<String> roots, String words) {
        var changes = new LinkedHashMap<String, Change>();
        for (var root : roots) {
            var before = known.get(root);
            var now = draft.get(root);
            if (before != null && !before.equals(now)) {
                changes.put(root, new Change(before, now));
                known.put(root, now);
            }
        }
        if (!changes.isEmpty()) {
            undone.clear();
            push(new Step(changes, words, changes.keySet().iterator().next()));
            lastPath = "";
        }
    }

    private String listWords(String root, Optional<JsonNode> now) {
        var field = FieldWords.definition(root);
        var entry = field.map(FormField::kind)
                .filter(Entries.class::isInstance)
                .map(kind -> ((Entries) kind).entry())
                .orElse(root);
        var before =
                known.getOrDefault(root, Optional.empty()).map(JsonNode::size).orElse(0);
        var after = now.map(JsonNode::size).orElse(0);
        return after > before
                ? entry + " added"
                : after < before
                        ? entry + " deleted"
                        : field.map(FormField::words).orElse(root) + " answered";
    }

    private void push(Step step) {
        done.push(step);
        if (done.size() > MOST_STEPS) {
            done.removeLast();
        }
    }

    /** What would be taken back, in words; empty when nothing can. */
    String undoWords() {
        return done.isEmpty() ? "" : done.getFirst().words();
    }

    /** What would be taken back of the value or list at {@code root}. */
    String undoWords(String root) {
        return done.stream()
                .filter(step -> step.changes().containsKey(root))
                .findFirst()
                .map(Step::words)
                .orElse("");
    }

    /** What would be made again, in words; empty when nothing can. */
    String redoWords() {
        return undone.isEmpty() ? "" : undone.getFirst().words();
    }

    Optional<Turned> undo() {
        return undo(done.iterator());
    }

    /** Takes back the last step at {@code root}, and leaves later ones elsewhere. */
    Optional<Turned> undo(String root) {
        var steps = done.iterator();
        var skipped = 0;
        for (var step : done) {
            if (step.changes().containsKey(root)) {
                for (var i = 0; i < skipped; i++) {
                    steps.next();
                }
                return undo(steps);
            }
            skipped++;
        }
        return Optional.empty();
    }

    private Optional<Turned> undo(Iterator<Step> steps) {
        if (!steps.hasNext()) {
            return Optional.empty();
        }
        var step = steps.next();
        steps.remove();
        undone.push(step);
        step.changes().forEach((root, change) -> putBack(root, change.before()));
        return Optional.of(turned(step));
    }

    Optional<Turned> redo() {
        if (undone.isEmpty()) {
            return Optional.empty();
        }
        var step = undone.pop();
        step.changes().forEach((root, change) -> putBack(root, change.after()));
        push(step);
        return Optional.of(turned(step));
    }

    private void putBack(String root, Optional<JsonNode> value) {
        draft.putBack(root, value);
        known.put(root, draft.get(root));
        lastPath = "";
    }

    private static Turned turned(Step step) {
        return new Turned(step.changes().keySet(), step.words(), step.path());
    }

    /** A value of an entry belongs to its list. */
    private static String root(String path) {
        var entry = path.indexOf('[');
        return entry < 0 ? path : path.substring(0, entry);
    }
}
