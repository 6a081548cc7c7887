package limbqueue.policy.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import limbqueue.policy.PolicyPreview;
import limbqueue.policy.PolicyPreview.Line;
import limbqueue.shell.DayWords;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.triage.TriageResult;

/** What the draft would move: every open referral, before and after. */
class PreviewPanel extends Section {

    PreviewPanel(PolicyPreview preview) {
        addClassNames("lq-card", "lq-policy-preview");
        var moving = preview.moving();
        var otherWorkUp = preview.otherWorkUp();
        var staying = preview.staying();
        var heading = new H2(PolicyWords.summary(moving.size(), otherWorkUp.size(), staying.size()));
        heading.getElement().setAttribute("tabindex", "-1");
        add(
                heading,
                Pieces.paragraph(
                        "lq-quiet",
                        "As of " + DayWords.date(preview.asOf()) + ", beside " + preview.without()
                                + ". Every referral that is still to be decided. Approved ones keep the tier and the date"
                                + " that were decided."),
                new Notice(TriageResult.NOTICE));
        if (!moving.isEmpty()) {
            add(table("Would move", moving));
        }
        if (!otherWorkUp.isEmpty()) {
            add(table("Would get another work-up only", otherWorkUp));
        }
        if (!staying.isEmpty()) {
            var list = new UnorderedList();
            staying.forEach(line -> list.add(
                    new ListItem(link(line), Pieces.text("lq-quiet", ": " + PolicyWords.place(line.after())))));
            var details = new NativeDetails(
                    staying.size() == 1 ? "1 stays as it is" : staying.size() + " stay as they are", list);
            details.addClassName("lq-policy-staying");
            add(details);
        }
    }

    private static Component table(String caption, List<Line> lines) {
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-policy-lines");
        table.setCaptionText(caption + " (" + lines.size() + ")");
        var head = new NativeTableRow();
        for (var column : List.of("Referral", "Urgency and target date", "Red flags", "Work-up that differs")) {
            var cell = new NativeTableHeaderCell(column);
            cell.getElement().setAttribute("scope", "col");
            head.add(cell);
        }
        table.getHead().add(head);
        lines.forEach(line -> table.getBody().add(row(line)));
        return table;
    }

    private static NativeTableRow row(Line line) {
        var who = new NativeTableHeaderCell();
        who.getElement().setAttribute("scope", "row");
        who.add(link(line), Pieces.text("lq-quiet lq-policy-state", PolicyWords.of(line.state())));
        return new NativeTableRow(
                who,
                beforeAndAfter(
                        List.of(PolicyWords.place(line.before())),
                        List.of(PolicyWords.place(line.after())),
                        line.moves()),
                beforeAndAfter(
                        List.of(PolicyWords.flags(line.before())),
                        List.of(PolicyWords.flags(line.after())),
                        !line.before().flags().equals(line.after().flags())),
                beforeAndAfter(PolicyWords.workUp(line, false), PolicyWords.workUp(line, true), line.workUpChanges()));
    }

    private static NativeTableCell beforeAndAfter(List<String> before, List<String> after, boolean differs) {
        var cell = new NativeTableCell();
        if (!differs || before.equals(after)) {
            cell.add(Pieces.text("lq-quiet", after.isEmpty() ? "the same" : "the same: " + String.join("; ", after)));
            return cell;
        }
        before.forEach(words -> cell.add(side("was", words)));
        after.forEach(words -> cell.add(side("would be", words)));
        return cell;
    }

    private static Component side(String which, String words) {
        return Pieces.div(
                which.equals("was") ? "lq-policy-was" : "lq-policy-would-be",
                Pieces.text("lq-policy-side", which + " "),
                Pieces.text("lq-policy-value", words));
    }

    private static Anchor link(Line line) {
        return new Anchor(
                "referrals/" + line.id(),
                (line.patient().isBlank() ? "Name not known" : line.patient()) + ", " + line.reference());
    }
}
