package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.TimelineEntry;

/** What was decided and what happened, newest first. */
class LifePanel extends Section {

    LifePanel(List<DecisionRecord> decisions, List<TimelineEntry> timeline) {
        this("Decisions and timeline");
        addDecisions(decisions);
        addTimeline(timeline);
    }

    private LifePanel(String title) {
        addClassNames("lq-panel", "lq-life");
        var heading = new H2(title);
        heading.addClassName("lq-panel-title");
        add(heading);
    }

    static LifePanel ofDecisions(List<DecisionRecord> decisions) {
        var panel = new LifePanel("Earlier decisions");
        panel.addClassName("lq-earlier-decisions");
        panel.addDecisions(decisions);
        return panel;
    }

    static LifePanel ofTimeline(List<TimelineEntry> timeline) {
        var panel = new LifePanel("Timeline");
        panel.addTimeline(timeline);
        return panel;
    }

    private void addDecisions(List<DecisionRecord> decisions) {
        if (decisions.isEmpty()) {
            add(Markup.paragraph("lq-soft", "None yet."));
            return;
        }
        var list = new UnorderedList();
        list.addClassName("lq-decisions");
        for (var decision : decisions) {
            var item = new ListItem(
                    Markup.text("lq-decision", DecisionWords.of(decision)),
                    Markup.text(
                            "lq-soft",
                            decision.author() + ", " + TierWords.moment(decision.at()) + "; policy "
                                    + decision.policy()));
            if (!decision.reason().isBlank()) {
                item.add(Markup.text("lq-quote", "“" + decision.reason() + "”"));
            }
            list.add(item);
        }
        add(list);
    }

    private void addTimeline(List<TimelineEntry> timeline) {
        var list = new OrderedList();
        list.addClassName("lq-timeline");
        for (var entry : timeline) {
            list.add(new ListItem(
                    Markup.text("lq-timeline-when", TierWords.moment(entry.at())),
                    Markup.text("lq-timeline-what", entry.what() + ", " + entry.who())));
        }
        add(list);
    }
}
