package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.referral.Referral;
import limbqueue.referral.ui.FieldKind.Entries;
import limbqueue.referral.ui.Merge.Choice;
import limbqueue.referral.ui.Merge.Difference;
import tools.jackson.databind.JsonNode;

/** Two people saved the same referral: both versions side by side, to choose from value by value. */
final class ConflictDialog extends Dialog {

    private final Map<String, AnswerField> choices = new HashMap<>();

    private ConflictDialog(String title, String explanation) {
        setHeaderTitle(title);
        addClassName("lq-conflict");
        setWidth("min(1000px, 94vw)");
        setCloseOnEsc(false);
        setCloseOnOutsideClick(false);
        add(new Paragraph(explanation));
    }

    /**
     * The other version may still be changed.
     *
     * @param chosen given the document as chosen
     */
    static ConflictDialog toChoose(Referral theirs, Merge merge, Consumer<String> chosen) {
        var dialog = new ConflictDialog(
                theirs.savedBy() + " saved this referral while you were typing",
                "Nothing is lost. These are the answers that differ; choose which to keep. What you changed is kept as you"
                        + " typed it unless you choose otherwise.");
        var differences = merge.differences();
        dialog.add(dialog.table(theirs, differences, true));
        dialog.footer("Keep these and save", () -> chosen.accept(merge.merged(dialog.chosen(differences))));
        return dialog;
    }

    /** The referral was decided meanwhile: what was typed is shown once more, and can no longer go into it. */
    static ConflictDialog tooLate(Referral theirs, Merge merge, Runnable seen) {
        // Open, and yet too late: it rests as part of another.
        var dialog = TierWords.isOpen(theirs.state())
                ? new ConflictDialog(
                        "This referral became part of another while you were typing",
                        "It is the same person's, entered twice. What you typed was kept beside it; if one of these answers"
                                + " matters, enter it in the other referral, or take this one out again.")
                : new ConflictDialog(
                        "This referral was decided while you were typing",
                        "It is now: " + TierWords.of(theirs.state())
                                + ". A decided referral is not changed any more. What you typed was kept beside it; if one of"
                                + " these answers matters, tell the physician.");
        dialog.add(dialog.table(theirs, merge.differences(), false));
        dialog.footer("Open the referral", seen);
        return dialog;
    }

    private void footer(String text, Runnable action) {
        var button = new Button(text, _ -> {
            close();
            action.run();
        });
        button.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        getFooter().add(button);
    }

    private Map<String, Choice> chosen(List<Difference> differences) {
        var chosen = new HashMap<String, Choice>();
        for (var difference : differences) {
            var field = choices.get(difference.path());
            if (field != null && !field.getValue().isEmpty()) {
                chosen.put(difference.path(), Choice.valueOf(field.getValue()));
            }
        }
        return chosen;
    }

    private NativeTable table(Referral theirs, List<Difference> differences, boolean choose) {
        var columns = new NativeTableRow(
                header("Answer"),
                header("Theirs: " + theirs.savedBy() + ", " + TierWords.time(theirs.savedAt())),
                header("Yours"));
        if (choose) {
            columns.add(header("Keep"));
        }
        var header = new NativeTableHeader(columns);
        var body = new NativeTableBody();
        for (var difference : differences) {
            var name = new NativeTableHeaderCell(FieldWords.of(difference.path()));
            name.getElement().setAttribute("scope", "row");
            var row = new NativeTableRow(
                    name,
                    new NativeTableCell(shown(difference.path(), difference.theirs())),
                    new NativeTableCell(shown(difference.path(), difference.mine())));
            if (choose) {
                row.add(new NativeTableCell(choice(difference)));
            }
            body.add(row);
        }
        var table = new NativeTable(header, body);
        table.addClassName("lq-versions");
        return table;
    }

    private static NativeTableHeaderCell header(String text) {
        var header = new NativeTableHeaderCell(text);
        header.getElement().setAttribute("scope", "col");
        return header;
    }

    private AnswerField choice(Difference difference) {
        var options = new ArrayList<FieldKind.Choice.Option>();
        options.add(new FieldKind.Choice.Option(Choice.THEIRS.name(), "Theirs"));
        options.add(new FieldKind.Choice.Option(Choice.MINE.name(), "Yours"));
        if (difference.canTakeBoth()) {
            options.add(new FieldKind.Choice.Option(Choice.BOTH.name(), "Both"));
        }
        var field = new AnswerField(options);
        field.getElement().setAttribute("required", true);
        field.getElement().setAttribute("aria-label", "Keep for " + FieldWords.of(difference.path()));
        field.setValue(difference.suggested().name());
        choices.put(difference.path(), field);
        return field;
    }

    /** A value in words; of a list, each entry on a line of its own. */
    private static Component shown(String path, Optional<JsonNode> value) {
        if (value.isEmpty()) {
            var unknown = new Span("not known");
            unknown.addClassName("lq-quiet");
            return unknown;
        }
        var node = value.get();
        if (!node.isArray()
                || node.isEmpty()
                || FieldWords.definition(path)
                        .filter(field -> field.kind() instanceof Entries)
                        .isEmpty()) {
            return new Span(FieldWords.value(path, node));
        }
        var lines = new Div();
        for (var index = 0; index < node.size(); index++) {
            var parts = new ArrayList<String>();
            var entryPath = path + "[" + index + "].";
            for (var property : node.get(index).properties()) {
                var words = FieldWords.definition(entryPath + property.getKey())
                        .map(FormField::words)
                        .orElse(property.getKey());
                parts.add(words + " " + FieldWords.value(entryPath + property.getKey(), property.getValue()));
            }
            lines.add(new Div(new Span(parts.isEmpty() ? "an empty entry" : String.join(", ", parts))));
        }
        return lines;
    }
}
