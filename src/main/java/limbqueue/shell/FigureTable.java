package limbqueue.shell;

import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Span;
import java.util.List;
import java.util.Locale;
import limbqueue.access.AuditTrail;

/**
 * A table of figures, on the page and as CSV: the first cell of a row names it.
 *
 * @param name in lower case, also of the file
 * @param rows as many cells each as {@code header} has
 */
public record FigureTable(String name, List<String> header, List<List<String>> rows) {

    /** Stands for a figure that is held back. */
    public static final String NOT_SHOWN = "not shown";

    public CsvLink csv(AuditTrail auditTrail) {
        return new CsvLink(auditTrail, name, header, () -> rows);
    }

    public Div onPage() {
        var names = new NativeTableRow();
        header.forEach(words -> names.add(heading(words, "col")));
        var head = new NativeTableHeader();
        head.add(names);
        var body = new NativeTableBody();
        rows.forEach(cells -> {
            var row = new NativeTableRow();
            row.add(heading(cells.getFirst(), "row"));
            cells.stream().skip(1).forEach(words -> row.add(cell(words)));
            body.add(row);
        });
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-figures");
        table.getElement()
                .setAttribute("aria-label", name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1));
        table.add(head, body);
        var scrolling = Pieces.div("lq-figures-scroll", table);
        scrolling
                .getElement()
                .setAttribute("tabindex", "0")
                .setAttribute("role", "group")
                .setAttribute("aria-label", "Table: " + name);
        return scrolling;
    }

    private static NativeTableCell cell(String words) {
        var cell = new NativeTableCell(words);
        cell.setClassName("lq-figure-none", words.equals(NOT_SHOWN));
        return cell;
    }

    private static NativeTableHeaderCell heading(String words, String scope) {
        var cell = new NativeTableHeaderCell(new Span(words));
        cell.getElement().setAttribute("scope", scope);
        return cell;
    }
}
