package limbqueue.governance.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import java.util.Locale;
import limbqueue.governance.Overruling;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;

/** Which rules were overruled most, and why. */
final class OverruledPanel {

    private final GovernanceWords words;

    OverruledPanel(GovernanceWords words) {
        this.words = words;
    }

    Component of(List<Overruling> rules) {
        var panel = Pieces.panel("lq-overruled", "Rules most overruled, with the reasons given");
        if (rules.isEmpty()) {
            panel.add(ReportFigure.nothing("Nothing was overruled in this period."));
            return panel;
        }
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "A rule counts as overruled when a proposal in which it spoke was, whatever else spoke in it. The latest five "
                        + "reasons of each; names of patients are taken out."));
        var list = new OrderedList();
        list.addClassName("lq-overruled-rules");
        rules.forEach(rule -> {
            var reasons = new UnorderedList();
            rule.reasons()
                    .forEach(reason -> reasons.add(new ListItem(
                            Pieces.text("lq-quiet", DayWords.date(reason.day()) + ", " + change(reason) + ": "),
                            Pieces.text("lq-reason", "“" + reason.words() + "”"))));
            list.add(new ListItem(
                    Pieces.div(
                            "lq-overruled-rule",
                            Pieces.text("lq-strong", GovernanceWords.name(rule.rule())),
                            Pieces.text(
                                    "lq-overruled-count",
                                    rule.overruled().of() + " of "
                                            + rule.overruled().all() + ", "
                                            + Figures.percent(rule.overruled().share()) + " ("
                                            + Figures.interval(rule.overruled()) + ")")),
                    Pieces.paragraph("lq-quiet", rule.says()),
                    reasons));
        });
        panel.add(list);
        return panel;
    }

    private String change(Overruling.Reason reason) {
        return reason.proposed() == reason.decided()
                ? words.tier(reason.decided()) + ", another category"
                : words.tier(reason.proposed()) + " to "
                        + words.tier(reason.decided()).toLowerCase(Locale.ROOT);
    }
}
