package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.referral.Seen;

/** What has changed since this physician last saw the referral. */
class SinceSeenPanel extends Section {

    SinceSeenPanel(ReferralPage page, Optional<Seen> seen) {
        addClassNames("lq-panel", "lq-since-seen");
        var heading = new H2("Since you last saw it");
        heading.addClassName("lq-panel-title");
        add(heading);
        seen.ifPresentOrElse(
                before -> show(page, before), () -> add(Markup.paragraph("lq-soft", "Seen only as it is.")));
    }

    /** Whether there is nothing new to tell. */
    boolean isShort() {
        return !hasClassName("lq-since-seen-changed");
    }

    private void show(ReferralPage page, Seen seen) {
        var facts = DocumentChanges.between(Draft.of(seen.document()), page.draft());
        if (facts.isEmpty() && seen.changes().isEmpty()) {
            add(Markup.paragraph("lq-soft", "Nothing new."));
            return;
        }
        addClassName("lq-since-seen-changed");
        add(Markup.paragraph("lq-soft", "You saw it on " + TierWords.moment(seen.at()) + "."));
        if (!seen.changes().isEmpty()) {
            var list = new UnorderedList();
            seen.changes().forEach(change -> list.add(new ListItem(change)));
            add(list);
        }
        if (!facts.isEmpty()) {
            var head = new NativeTableHeader();
            head.add(new NativeTableRow(
                    Markup.columnHeading("What"), Markup.columnHeading("Then"), Markup.columnHeading("Now")));
            var body = new NativeTableBody();
            facts.forEach(change -> body.add(new NativeTableRow(
                    Markup.rowHeading(change.field()),
                    new NativeTableCell(change.before()),
                    new NativeTableCell(change.now()))));
            var table = new NativeTable();
            table.add(head, body);
            add(table);
        }
    }
}
