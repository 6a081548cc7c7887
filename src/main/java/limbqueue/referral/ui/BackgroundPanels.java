package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.HasComponents;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What else is known of the patient: imaging, procedures, history, medicines, allergies, laboratory values, the letter. */
class BackgroundPanels extends Div {

    BackgroundPanels(ReferralPage page) {
        addClassName("lq-background");
        Stream.of(
                        entries(page, "Earlier procedures", "procedures", deferred(page)),
                        entries(page, "Imaging", "imaging"),
                        entries(page, "Lesions", "lesions"),
                        history(page),
                        entries(page, "Medicines", "medicines"),
                        entries(page, "Allergies", "allergies"),
                        entries(page, "Laboratory", "labs", size(page)),
                        letter(page))
                .map(Still::of)
                .forEach(this::add);
    }

    private static Component entries(ReferralPage page, String title, String path, Component... more) {
        var list = new UnorderedList();
        for (var finding : EntryFacts.of(page.draft(), path)) {
            list.add(new ListItem(new FindingText(finding)));
        }
        var panel = Markup.panel("lq-background-" + path, title, list);
        panel.add(more);
        return panel;
    }

    private static Component[] deferred(ReferralPage page) {
        var words = Stream.of("where", "days", "reason")
                .flatMap(field -> page.value("deferredElsewhere." + field).stream())
                .collect(Collectors.joining(", "));
        return words.isEmpty()
                ? new Component[0]
                : new Component[] {Markup.paragraph("lq-finding-present", "Put off elsewhere: " + words)};
    }

    private static Component[] size(ReferralPage page) {
        var words = Stream.of("heightCm", "weightKg")
                .flatMap(field -> page.value(field).stream())
                .collect(Collectors.joining(", "));
        return words.isEmpty() ? new Component[0] : new Component[] {Markup.paragraph("lq-soft", words)};
    }

    private static Component history(ReferralPage page) {
        var facts = HistoryFacts.of(page.draft());
        var panel = Markup.panel("lq-history", "History");
        addGroup(panel, "lq-finding-present", "Yes: ", facts.present());
        addGroup(panel, "lq-finding-absent", "No: ", facts.absent());
        addGroup(panel, "lq-not-known", "Not known: ", facts.notKnown());
        return panel;
    }

    private static void addGroup(HasComponents panel, String className, String lead, List<String> facts) {
        if (!facts.isEmpty()) {
            var text = new Div(new Span(lead), Markup.text(className, String.join(", ", facts)));
            text.addClassName("lq-history-group");
            panel.add(text);
        }
    }

    private static Component letter(ReferralPage page) {
        return Markup.panel(
                "lq-letter-panel",
                "Letter as it came",
                page.value("letterText")
                        .<Component>map(text -> Markup.div("lq-letter-words", new Span(text)))
                        .orElseGet(() -> Markup.paragraph("lq-soft", "No letter text is held.")));
    }
}
