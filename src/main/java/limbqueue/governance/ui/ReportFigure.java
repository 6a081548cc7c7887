package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.H3;
import com.vaadin.flow.component.html.NativeDetails;
import java.util.OptionalDouble;
import limbqueue.access.AuditTrail;
import limbqueue.governance.Proportion;
import limbqueue.governance.RangePicture;
import limbqueue.shell.CountedWords;
import limbqueue.shell.DrawnPicture;
import limbqueue.shell.FigureTable;
import limbqueue.shell.Pieces;

/**
 * A picture with its table, and the table to take away.
 *
 * @param auditTrail notes who takes one away
 */
record ReportFigure(AuditTrail auditTrail) {

    /** As many rows as a picture of rules or flags has: more than that nobody compares at a glance. */
    static final int ROWS = 12;

    static final String WILSON = "The dot is the share, the line its 95 % confidence interval by Wilson's method: the "
            + "longer the line, the fewer the decisions.";

    /** @param folded whether the table is opened by whoever wants it */
    Component of(String title, RangePicture picture, FigureTable table, boolean folded) {
        var drawn = picture.rows().isEmpty()
                ? Pieces.div(
                        "lq-picture",
                        nothing("There is nothing to draw yet: no wait has ended, or the groups are too small."))
                : new DrawnPicture(picture.svg());
        var head = Pieces.div("lq-figure-head", new H3(title), table.csv(auditTrail));
        var both = Pieces.div("lq-figure-both", drawn);
        if (folded) {
            var details = new NativeDetails(CountedWords.of(table.rows().size(), "rule", "rules") + " as a table");
            details.setContent(table.onPage());
            both.add(details);
            both.addClassName("lq-figure-tall");
        } else {
            both.add(table.onPage());
        }
        return Pieces.div("lq-figure", head, both);
    }

    static RangePicture.Row row(String words, Proportion proportion) {
        var interval = proportion.interval();
        return new RangePicture.Row(
                words, interval.low(), proportion.share().orElse(0), interval.high(), OptionalDouble.empty());
    }

    static Component nothing(String words) {
        return Pieces.paragraph("lq-nothing", words);
    }
}
