package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Reopening;

/** Why a referral that was approved is before the physician again: what results changed, and what was decided before. */
class ReopenedPanel extends Section {

    /** @param decisions on this referral, newest first */
    ReopenedPanel(Reopening reopening, List<DecisionRecord> decisions) {
        addClassNames("lq-panel", "lq-reopened");
        var heading = new H2("Before you again: results changed what was decided on");
        heading.addClassName("lq-panel-title");
        add(heading);
        var changes = new UnorderedList();
        reopening.changes().forEach(change -> changes.add(new ListItem(change)));
        add(changes);
        add(Markup.paragraph(
                "lq-soft",
                "Typed in by " + reopening.author() + ", " + TierWords.moment(reopening.at()) + "."
                        + decisions.stream()
                                .filter(decision -> decision.id() == reopening.decisionId())
                                .findFirst()
                                .map(decision -> " Before that: " + DecisionWords.of(decision) + ", "
                                        + decision.author() + ", " + TierWords.moment(decision.at()) + ".")
                                .orElse("")));
    }
}
