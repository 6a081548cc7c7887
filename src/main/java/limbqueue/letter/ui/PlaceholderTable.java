package limbqueue.letter.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Section;
import java.util.stream.Stream;
import limbqueue.letter.LetterKind;
import limbqueue.letter.wording.Placeholder;
import limbqueue.letter.wording.Slots;
import limbqueue.shell.Pieces;

/** What may stand in the words of a kind of letter, and how it is written. */
class PlaceholderTable extends Section {

    PlaceholderTable(LetterKind kind) {
        addClassNames("lq-card", "lq-words-placeholders");
        var slots = Slots.of(kind);
        var table = new NativeTable();
        table.addClassName("lq-table");
        table.getHead().add(new NativeTableRow(heading("Write"), heading("It stands for"), heading("")));
        Stream.concat(slots.needed().stream(), slots.besides().stream())
                .sorted()
                .forEach(one -> table.getBody()
                        .add(new NativeTableRow(
                                new NativeTableCell(written(one)),
                                new NativeTableCell(one.meaning()),
                                new NativeTableCell(slots.needed().contains(one) ? "needed" : ""))));
        add(
                new H2("What this letter knows"),
                Pieces.paragraph(
                        "lq-quiet",
                        "Paragraphs are parted by a blank line. A line that begins with “- ” is an entry of a list, one with"
                                + " “> ” is quoted, one with “#” is a remark that is not printed."),
                table);
    }

    private static String written(Placeholder one) {
        var label = one.label();
        return switch (one.shape()) {
            case TEXT -> "{{" + label + "}}";
            case PERHAPS -> "{{#" + label + "}} … {{" + label + "}} … {{/" + label + "}}";
            case LIST -> "{{#" + label + "}}, a line “- {{item}}”, {{/" + label + "}}";
        };
    }

    private static NativeTableHeaderCell heading(String words) {
        var cell = new NativeTableHeaderCell(words.isEmpty() ? "Must it be there?" : words);
        cell.getElement().setAttribute("scope", "col");
        return cell;
    }
}
