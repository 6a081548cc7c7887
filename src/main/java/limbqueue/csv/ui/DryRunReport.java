package limbqueue.csv.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Span;
import java.util.List;
import java.util.function.Supplier;
import limbqueue.access.AuditTrail;
import limbqueue.csv.CellProblem;
import limbqueue.csv.DryRun;
import limbqueue.shell.CsvLink;

/** What would happen if a table were imported, and what is wrong in it. */
record DryRunReport(AuditTrail auditTrail) {

    private static final int SHOWN_PROBLEMS = 200;

    static String sum(DryRun dry) {
        var mend = dry.problems().stream()
                .filter(problem -> !problem.column().isEmpty())
                .map(CellProblem::line)
                .distinct()
                .count();
        return ImportWords.rows(dry.fresh()) + " would become " + (dry.fresh() == 1 ? "a referral" : "referrals")
                + " to complete"
                + (mend == 0 ? "" : ", " + mend + " of them with something to mend")
                + (dry.known() == 0
                        ? ""
                        : "; " + ImportWords.rows(dry.known()) + " passed over, in already or twice in the file")
                + (dry.refused() == 0
                        ? ""
                        : "; " + ImportWords.rows(dry.refused()) + " cannot be read and would be left out")
                + ".";
    }

    Component problems(DryRun dry, Supplier<DryRun> again) {
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-csv-problems");
        var body = new NativeTableBody();
        for (var problem : dry.problems()
                .subList(0, Math.min(SHOWN_PROBLEMS, dry.problems().size()))) {
            var row = new NativeTableRow();
            for (var cell : List.of(String.valueOf(problem.line()), problem.column(), problem.what(), problem.todo())) {
                var place = new NativeTableCell(cell);
                place.getElement().setAttribute("dir", "auto");
                row.add(place);
            }
            body.add(row);
        }
        table.add(new NativeTableHeader(headings("Row", "Column", "What is wrong", "What to do")), body);
        var link = new CsvLink(
                auditTrail,
                "problems",
                List.of("Row", "Column", "Cell", "What is wrong", "What to do"),
                () -> again.get().problems().stream()
                        .map(problem -> List.of(
                                String.valueOf(problem.line()),
                                problem.column(),
                                problem.cell(),
                                problem.what(),
                                problem.todo()))
                        .toList());
        var count = new Span(
                dry.problems().size() > SHOWN_PROBLEMS
                        ? "The first " + SHOWN_PROBLEMS + " of "
                                + dry.problems().size() + " problems."
                        : dry.problems().size() == 1
                                ? "1 problem."
                                : dry.problems().size() + " problems.");
        var head = new Div(count, link);
        head.addClassName("lq-pair-actions");
        var block = new Div(head, table);
        block.addClassName("lq-pair-scrolls");
        return block;
    }

    static NativeTableRow headings(String... names) {
        var row = new NativeTableRow();
        for (var name : names) {
            var cell = new NativeTableHeaderCell(name);
            cell.getElement().setAttribute("scope", "col");
            row.add(cell);
        }
        return row;
    }
}
