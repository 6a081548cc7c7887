package limbqueue.referral.ui;

import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeDetails;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.Comparator;
import java.util.function.Function;
import limbqueue.triage.TriageResult.WorkUpItem;

/** What has to be done or held before treatment: first what is missing, then what is held and how long it is valid. */
class WorkUpPanel extends Section {

    WorkUpPanel(ReferralPage page) {
        this(page, WorkUpPanel::item);
    }

    private WorkUpPanel(ReferralPage page, Function<WorkUpItem, ListItem> entry) {
        addClassNames("lq-panel", "lq-work-up");
        var items = page.proposal().workUp();
        var heading = new H2("Work-up");
        heading.addClassName("lq-panel-title");
        add(heading);
        if (items.isEmpty()) {
            add(Markup.paragraph("lq-soft", "None proposed."));
            return;
        }
        var list = new UnorderedList();
        items.stream()
                .sorted(Comparator.comparing(item -> !item.needed()))
                .map(entry)
                .forEach(list::add);
        add(list);
    }

    /** A line each, with who does it; the rest on demand. */
    static WorkUpPanel inShort(ReferralPage page) {
        return new WorkUpPanel(page, WorkUpPanel::line);
    }

    private static ListItem line(WorkUpItem item) {
        var details = new NativeDetails();
        details.addClassNames("lq-reasons", "lq-in-short");
        details.setSummary(Markup.div(
                "lq-summary-line",
                Markup.text("lq-work-up-text", item.text()),
                Markup.text("lq-soft", WorkUpWords.inShort(item))));
        var more = Markup.div(
                "lq-why",
                Markup.text("lq-reason-text", WorkUpWords.standing(item)),
                Markup.text("lq-reason-text", item.why()),
                Markup.text("lq-cited", item.source()));
        item.calculations()
                .forEach(figure -> more.add(
                        Markup.text("lq-reason-text", figure.what() + ": " + figure.value()),
                        Markup.text("lq-cited", figure.source())));
        details.setContent(more);
        var entry = new ListItem(details);
        entry.addClassName(item.needed() ? "lq-needed" : "lq-held");
        return entry;
    }

    private static ListItem item(WorkUpItem item) {
        var entry = new ListItem(Markup.text("lq-work-up-text", item.text()));
        entry.addClassName(item.needed() ? "lq-needed" : "lq-held");
        entry.add(Markup.text("lq-soft", WorkUpWords.standing(item)));
        var details = new NativeDetails("Why");
        details.addClassName("lq-reasons");
        details.setContent(Markup.div(
                "lq-why", Markup.text("lq-reason-text", item.why()), Markup.text("lq-cited", item.source())));
        entry.add(details);
        if (!item.calculations().isEmpty()) {
            var figures = new UnorderedList();
            figures.addClassName("lq-work-up-figures");
            item.calculations()
                    .forEach(figure -> figures.add(new ListItem(
                            Markup.text("lq-figure", figure.what() + ": " + figure.value()),
                            Markup.text("lq-cited", figure.source()))));
            entry.add(figures);
        }
        return entry;
    }
}
