package limbqueue.referral.ui;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.referral.ui.FieldKind.Entries;
import tools.jackson.databind.JsonNode;

/**
 * The lesions of a draft as they are edited, on the picture or in the list. Each change can be taken back; what
 * is typed into one field without a pause for another is one change.
 */
final class LesionEdits {

    /** The list's path in the document. */
    static final String PATH = "lesions";

    static final List<FormField> FIELDS = fields();

    private static final String SIDE = "side";
    private static final String SEGMENT = "segment";
    private static final int MOST_STEPS = 100;
    private static final Pattern OF_A_FIELD = Pattern.compile("lesions\\[(\\d+)]\\.(\\w+).*");

    private final Draft draft;
    private final Deque<Step> steps = new ArrayDeque<>();
    private Optional<JsonNode> last;
    private String lastPath = "";

    /**
     * @param before the list before the change; empty when it was not known
     * @param words what was changed
     */
    private record Step(Optional<JsonNode> before, String words) {}

    /**
     * The lesions as they are typed.
     *
     * @param undo what can be taken back, in words; empty when nothing can
     */
    record Typed(List<TypedLesion> lesions, String undo) {}

    /**
     * @param values what is typed, by field; a field that is not known is left out
     * @param problems what is wrong with it, by field
     */
    record TypedLesion(Map<String, String> values, Map<String, String> problems) {}

    LesionEdits(Draft draft) {
        this.draft = draft;
        this.last = draft.get(PATH);
    }

    Typed typed(List<Problem> problems) {
        var lesions = new ArrayList<TypedLesion>();
        for (var index = 0; index < draft.sizeOf(PATH).orElse(0); index++) {
            var values = new HashMap<String, String>();
            for (var field : FIELDS) {
                draft.get(path(index, field.path()))
                        .ifPresent(value -> values.put(field.path(), FieldCell.shown(field.kind(), value)));
            }
            lesions.add(new TypedLesion(values, new HashMap<>()));
        }
        for (var problem : problems) {
            var at = OF_A_FIELD.matcher(problem.path());
            if (at.matches() && Integer.parseInt(at.group(1)) < lesions.size()) {
                lesions.get(Integer.parseInt(at.group(1)))
                        .problems()
                        .merge(at.group(2), problem.text(), (one, other) -> one + " " + other);
            }
        }
        return new Typed(lesions, steps.isEmpty() ? "" : steps.getFirst().words());
    }

    /** @throws IllegalArgumentException if a lesion has no such field */
    void set(int index, String field, String typed) {
        if (index >= draft.sizeOf(PATH).orElse(0)) {
            return;
        }
        var path = path(index, field);
        var kind = FIELDS.stream()
                .filter(known -> known.path().equals(field))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException("a lesion has no field " + field))
                .kind();
        FieldCell.read(kind, typed).ifPresentOrElse(value -> draft.set(path, value), () -> draft.clear(path));
        noticed(path);
    }

    /** @param side empty for a segment without one */
    void add(String segment, String side) {
        var index = draft.sizeOf(PATH).orElse(0);
        draft.set(path(index, SEGMENT), segment);
        if (!side.isEmpty()) {
            draft.set(path(index, SIDE), side);
        }
        noticed("");
    }

    void remove(int index) {
        draft.removeEntry(PATH, index);
        noticed("");
    }

    void undo() {
        if (!steps.isEmpty()) {
            draft.putBack(PATH, steps.pop().before());
            last = draft.get(PATH);
            lastPath = "";
        }
    }

    /**
     * Keeps what the list was before a change that was just made, wherever it was made.
     *
     * @param path of the changed value; empty when entries came or went
     */
    void noticed(String path) {
        var now = draft.get(PATH);
        if (now.equals(last)) {
            return;
        }
        if (path.isEmpty() || !path.equals(lastPath)) {
            steps.push(new Step(last, words(path, now)));
            if (steps.size() > MOST_STEPS) {
                steps.removeLast();
            }
        }
        last = now;
        lastPath = path;
    }

    private String words(String path, Optional<JsonNode> now) {
        if (!path.isEmpty()) {
            return FieldWords.of(path);
        }
        var before = last.map(JsonNode::size).orElse(0);
        var after = now.map(JsonNode::size).orElse(0);
        return after > before ? "lesion added" : after < before ? "lesion deleted" : "lesions answered";
    }

    private static String path(int index, String field) {
        return PATH + "[" + index + "]." + field;
    }

    private static List<FormField> fields() {
        return FieldWords.definition(PATH)
                .map(FormField::kind)
                .filter(Entries.class::isInstance)
                .map(kind -> ((Entries) kind).fields())
                .orElseThrow();
    }
}
