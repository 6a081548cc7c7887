package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.regex.Pattern;
import limbqueue.referral.ui.FieldKind.Entries;
import org.springframework.modulith.NamedInterface;
import tools.jackson.databind.JsonNode;

/** The words of the form, and its fields, for other screens that show or ask the same. */
@NamedInterface("words")
public final class FormWords {

    private static final Pattern SIDE = Pattern.compile("^(legs|armPressures)\\.(left|right)\\b");
    private static final Pattern ENTRY = Pattern.compile("\\[\\d+].*");

    private FormWords() {}

    /** A part of the form: its place, from 0, and its heading. */
    @NamedInterface("words")
    public record Part(int place, String title) {}

    /** The part of the form in which the value at {@code path} is asked; what the form does not know comes last. */
    public static Part partOf(String path) {
        var field = patternOf(ENTRY.matcher(path).replaceFirst(""));
        var sections = ReferralFields.SECTIONS;
        for (var place = 0; place < sections.size(); place++) {
            if (sections.get(place).fields().stream()
                    .anyMatch(known -> known.path().equals(field))) {
                return new Part(place, sections.get(place).title());
            }
        }
        return new Part(sections.size(), "Other");
    }

    /**
     * What the field is called where the heading of its part stands above it, as {@code Right leg · ABI} or, within an
     * entry, {@code Dose}.
     */
    public static String label(String path) {
        var label = FieldWords.definition(path).map(FormField::label).orElse(path);
        var side = SIDE.matcher(path);
        if (!side.find()) {
            return label;
        }
        if (side.group(1).equals("armPressures")) {
            return (side.group(2).equals("left") ? "Left arm" : "Right arm") + " · systolic";
        }
        var limb = " leg · ";
        return (side.group(2).equals("left") ? "Left" : "Right") + limb + label;
    }

    /** What an entry of the list at {@code path} is called, as {@code Medicine}. */
    public static String entry(String path) {
        return FieldWords.definition(path)
                .map(FormField::kind)
                .filter(Entries.class::isInstance)
                .map(kind -> ((Entries) kind).entry())
                .map(word -> word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1))
                .orElse(path);
    }

    /** The field in a sentence, as {@code right leg, reported ABI}. */
    public static String inSentence(String path) {
        return FieldWords.of(path);
    }

    /** The value at {@code path} in words, as {@code yes} or {@code 30 mmHg}. */
    public static String value(String path, JsonNode value) {
        return FieldWords.value(path, value);
    }

    /** A field of the form for one value outside of the form. */
    @NamedInterface("words")
    public static final class Editor extends Div {

        private final Optional<FieldCell> cell;

        /**
         * @param changed told the path and the new value, which is empty when it became unknown
         */
        public Editor(String path, Optional<JsonNode> value, BiConsumer<String, Optional<Object>> changed) {
            addClassName("lq-editor");
            cell = FieldWords.definition(path)
                    .filter(field -> !(field.kind() instanceof Entries))
                    .map(field -> new FieldCell(path, field, "Correct " + FieldWords.of(path), value, changed));
            cell.map(Component.class::cast).ifPresent(this::add);
        }

        /** Whether there is a field for this value. */
        public boolean isThere() {
            return cell.isPresent();
        }

        /** Shows what cannot be right in the value. */
        public void tell(List<String> problems) {
            cell.ifPresent(field -> field.tell(problems, List.of()));
        }
    }

    private static String patternOf(String path) {
        return SIDE.matcher(path).replaceFirst("$1." + FormField.SIDE);
    }
}
