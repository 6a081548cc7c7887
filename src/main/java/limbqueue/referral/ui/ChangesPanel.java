package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Section;
import java.util.Locale;
import java.util.Optional;
import limbqueue.referral.DecisionRecord;
import limbqueue.triage.TriageResult.Urgency;

/** What changed while the physician was reading: the decision was not taken, and the page below is the new one. */
class ChangesPanel extends Section {

    /** @param decided what somebody else decided meanwhile */
    ChangesPanel(ReferralPage read, ReferralPage now, Optional<DecisionRecord> decided) {
        addClassNames("lq-panel", "lq-changes");
        getElement().setAttribute("role", "alert");
        var heading = new H2("This referral changed while you were reading");
        heading.addClassName("lq-panel-title");
        add(heading);
        add(Markup.paragraph(
                "lq-changes-lead", decided.map(ChangesPanel::overtaken).orElseGet(() -> lead(read, now))));
        var changes = DocumentChanges.between(read.draft(), now.draft());
        var before = words(read.proposal().urgency());
        var after = words(now.proposal().urgency());
        if (changes.isEmpty() && before.equals(after)) {
            return;
        }
        var head = new NativeTableHeader();
        head.add(new NativeTableRow(
                Markup.columnHeading("What"), Markup.columnHeading("When you opened it"), Markup.columnHeading("Now")));
        var body = new NativeTableBody();
        if (!before.equals(after)) {
            body.add(row("proposed urgency", before, after));
        }
        changes.forEach(change -> body.add(row(change.field(), change.before(), change.now())));
        var table = new NativeTable();
        table.add(head, body);
        add(table);
    }

    private static String overtaken(DecisionRecord decision) {
        return decision.author() + " decided first, " + TierWords.moment(decision.at()) + ": "
                + DecisionWords.of(decision) + "."
                + (decision.reason().isBlank() ? "" : " “" + decision.reason() + "”.")
                + " Your decision was not taken. What you typed is kept.";
    }

    private static String lead(ReferralPage read, ReferralPage now) {
        if (read.referral().version() == now.referral().version()) {
            return "The document is the same, but the proposal is not: a day has passed, or the policy is another."
                    + " Nothing was decided. What you typed is kept.";
        }
        return "Saved by " + now.referral().savedBy() + ", "
                + TierWords.moment(now.referral().savedAt()) + ". "
                + (now.referral().state() == read.referral().state()
                        ? "Nothing was decided. Look at the changes, then decide again. What you typed is kept."
                        : "It is no longer before you: "
                                + TierWords.of(now.referral().state()).toLowerCase(Locale.ROOT)
                                + ". Your decision was not taken.");
    }

    private static String words(Urgency urgency) {
        return DecisionWords.tier(urgency.tier(), urgency.targetDate());
    }

    private static NativeTableRow row(String what, String before, String now) {
        return new NativeTableRow(Markup.rowHeading(what), new NativeTableCell(before), new NativeTableCell(now));
    }
}
