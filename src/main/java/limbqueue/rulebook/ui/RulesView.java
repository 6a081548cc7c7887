package limbqueue.rulebook.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.data.value.ValueChangeMode;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import com.vaadin.flow.server.streams.DownloadHandler;
import com.vaadin.flow.server.streams.DownloadResponse;
import jakarta.annotation.security.RolesAllowed;
import java.io.ByteArrayInputStream;
import java.util.LinkedHashMap;
import java.util.Map;
import limbqueue.access.Role;
import limbqueue.rulebook.RuleSheet;
import limbqueue.rulebook.RuleSheet.Chapter;
import limbqueue.rulebook.RuleSheet.Cited;
import limbqueue.rulebook.RuleSheet.Entry;
import limbqueue.rulebook.RuleSheet.Value;
import limbqueue.rulebook.RuleSheets;
import limbqueue.triage.TriageResult;

/** Every rule with where it is printed, the numbers it compares with, and how often it speaks; to search and to print. */
@Route("rules")
@PageTitle("Rules · LimbQueue")
@Menu(title = "Rules", order = 50)
@RolesAllowed({Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/rules.css")
class RulesView extends Section {

    private final RuleSheet sheet;
    private final TextField search = new TextField("Search");
    private final Span found = new Span();
    private final Paragraph nothing = new Paragraph("No rule has these words.");
    private final Map<Entry, Component> rules = new LinkedHashMap<>();
    private final Map<Chapter, Component> chapters = new LinkedHashMap<>();

    RulesView(RuleSheets sheets) {
        sheet = sheets.sheet();
        addClassNames("lq-page", "lq-rules");
        nothing.addClassName("lq-rules-nothing");
        add(head(sheets), about(), finder(), nothing);
        sheet.chapters().forEach(chapter -> {
            var section = section(chapter);
            chapters.put(chapter, section);
            add(section);
        });
        show("");
    }

    private Component head(RuleSheets sheets) {
        var version = text("lq-rules-version", "Rule book " + sheet.book() + ", " + sheet.date());
        var print = new Anchor(
                DownloadHandler.fromInputStream(_ -> {
                    var bytes = sheets.pdf();
                    return new DownloadResponse(
                            new ByteArrayInputStream(bytes),
                            "rule-book-" + sheet.book() + ".pdf",
                            "application/pdf",
                            bytes.length);
                }),
                "Print as PDF");
        print.addClassName("lq-rules-print");
        var right = new Div(version, print);
        right.addClassName("lq-rules-right");
        var head = new Div(new H1("Rules"), right);
        head.addClassName("lq-page-head");
        return head;
    }

    private Component about() {
        var notice = new Paragraph(TriageResult.NOTICE);
        notice.addClassName("lq-strong");
        var about = new Div(
                notice,
                new Paragraph("The days of each tier and how long results hold are the practice's policy, "
                        + sheet.policy() + ", and not part of this book."),
                new Anchor("policy", "The policy, its draft and its versions"),
                new Paragraph(
                        "Confirmed: read in public text. Secondary: read in a copy or a summary. Memory: known to the"
                                + " trade, not seen. Common practice: no published source."));
        about.addClassName("lq-rules-about");
        return about;
    }

    private Component finder() {
        search.setClearButtonVisible(true);
        search.setPlaceholder("Words of a rule, a source, a number");
        search.setValueChangeMode(ValueChangeMode.LAZY);
        search.setValueChangeTimeout(150);
        search.addValueChangeListener(typed -> show(typed.getValue()));
        found.addClassName("lq-rules-found");
        found.getElement().setAttribute("role", "status");
        var finder = new Div(search, found);
        finder.addClassName("lq-rules-finder");
        return finder;
    }

    private void show(String words) {
        var shown = 0;
        for (var chapter : chapters.entrySet()) {
            var here = 0;
            for (var entry : chapter.getKey().entries()) {
                var fits = words.isBlank() || entry.has(words);
                var rule = rules.get(entry);
                if (rule != null) {
                    rule.setVisible(fits);
                }
                here += fits ? 1 : 0;
            }
            chapter.getValue().setVisible(here > 0);
            shown += here;
        }
        nothing.setVisible(shown == 0);
        found.setText(shown == sheet.rules() ? sheet.rules() + " rules" : shown + " of " + sheet.rules() + " rules");
    }

    private Section section(Chapter chapter) {
        var list = new OrderedList();
        list.addClassName("lq-rule-list");
        chapter.entries().forEach(entry -> {
            var rule = rule(entry);
            rules.put(entry, rule);
            list.add(rule);
        });
        var section = new Section(new H2(chapter.heading()), list);
        section.addClassNames("lq-card", "lq-rules-chapter");
        return section;
    }

    private ListItem rule(Entry entry) {
        var says = new Paragraph(entry.says());
        says.addClassName("lq-rule-says");
        var what = new Div(says, text("lq-rule-id", entry.id()));
        what.addClassName("lq-rule-what");
        var from = new Div(sources(entry));
        from.addClassName("lq-rule-from");
        if (!entry.numbers().isEmpty()) {
            from.add(numbers(entry));
        }
        var item = new ListItem(what, from, speaks(entry));
        item.addClassName("lq-rule");
        return item;
    }

    private static UnorderedList sources(Entry entry) {
        var list = new UnorderedList();
        list.addClassName("lq-rule-sources");
        entry.cited().forEach(cited -> list.add(new ListItem(cited(cited))));
        return list;
    }

    private static Component[] cited(Cited cited) {
        return new Component[] {
            text("lq-rule-seen", cited.seen()),
            text("lq-rule-locator", cited.locator()),
            text("lq-rule-source", cited.source())
        };
    }

    private static UnorderedList numbers(Entry entry) {
        var list = new UnorderedList();
        list.addClassName("lq-rule-numbers");
        entry.numbers().forEach(number -> list.add(number(number)));
        return list;
    }

    private static ListItem number(Value number) {
        return new ListItem(
                text("lq-rule-number", number.name()),
                text("lq-rule-value", number.value()),
                text(
                        "lq-rule-source",
                        number.inForce() + "; " + number.source() + ", " + number.locator() + " (" + number.seen()
                                + ")"));
    }

    private Component speaks(Entry entry) {
        var count = text("lq-rule-count", Integer.toString(entry.speaksIn()));
        var of =
                text("lq-rule-of", sheet.referrals() == 1 ? "of 1 referral" : "of " + sheet.referrals() + " referrals");
        var speaks = new Div(text("lq-rule-of", "speaks in"), count, of);
        speaks.addClassName("lq-rule-speaks");
        return speaks;
    }

    private static Span text(String className, String text) {
        var span = new Span(text);
        span.addClassName(className);
        return span;
    }
}
