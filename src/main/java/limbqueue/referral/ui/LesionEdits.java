package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;
import limbqueue.document.Draft;
import limbqueue.document.Problem;
import limbqueue.referral.ui.FieldKind.Entries;

/** The lesions of a draft as they are edited on the picture. Each change can be taken back. */
final class LesionEdits {

    /** The list's path in the document. */
    static final String PATH = "lesions";

    static final List<FormField> FIELDS = fields();

    private static final String SIDE = "side";
    private static final String SEGMENT = "segment";
    private static final Pattern OF_A_FIELD = Pattern.compile("lesions\\[(\\d+)]\\.(\\w+).*");

    private final Draft draft;
    private final EditHistory history;

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

    /** @param history which holds the changes of {@code draft}, those of the lesions among them */
    LesionEdits(Draft draft, EditHistory history) {
        this.draft = draft;
        this.history = history;
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
        return new Typed(lesions, history.undoWords(PATH));
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
        history.noticed(path);
    }

    /** @param side empty for a segment without one */
    void add(String segment, String side) {
        var index = draft.sizeOf(PATH).orElse(0);
        draft.set(path(index, SEGMENT), segment);
        if (!side.isEmpty()) {
            draft.set(path(index, SIDE), side);
        }
        history.listChanged(PATH);
    }

    void remove(int index) {
        draft.removeEntry(PATH, index);
        history.listChanged(PATH);
    }

    void undo() {
        history.undo(PATH);
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
