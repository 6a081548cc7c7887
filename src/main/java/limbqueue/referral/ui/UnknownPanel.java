package limbqueue.referral.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Question;

/** What is not known and could change something, most decisive first, with the day by which to ask. */
class UnknownPanel extends Section {

    private static final String LEFT = "the left leg";
    private static final String RIGHT = "the right leg";
    private static final String EACH = "each leg";
    private static final String HISTORY = "history.";

    UnknownPanel(ReferralPage page) {
        this(page, UnknownPanel::oneByOne);
    }

    private UnknownPanel(ReferralPage page, Function<ReferralPage, List<Component>> shown) {
        addClassNames("lq-panel", "lq-unknown");
        var questions = page.proposal().questions();
        var heading = new H2("Not known (" + questions.size() + ")");
        heading.addClassName("lq-panel-title");
        add(heading);
        if (questions.isEmpty()) {
            add(Markup.paragraph("lq-soft", "Nothing that could change the proposal."));
            return;
        }
        add(shown.apply(page));
    }

    /** Those asked by the same day that could reveal the same stand together under it. */
    static UnknownPanel inShort(ReferralPage page) {
        var panel = new UnknownPanel(page, UnknownPanel::together);
        panel.addClassName("lq-unknown-in-short");
        return panel;
    }

    private static List<Component> oneByOne(ReferralPage page) {
        var list = new OrderedList();
        for (var question : page.proposal().questions()) {
            list.add(new ListItem(Markup.text("lq-question", question.ask()), by(question, page)));
        }
        return List.of(list);
    }

    private static List<Component> together(ReferralPage page) {
        var groups = page.proposal().questions().stream()
                .collect(Collectors.groupingBy(
                        question -> new Due(question.askBy(), question.couldReveal()),
                        LinkedHashMap::new,
                        Collectors.toList()));
        var shown = new ArrayList<Component>();
        groups.forEach((due, questions) -> {
            var list = new UnorderedList();
            var history = questions.stream()
                    .filter(question -> question.field().startsWith(HISTORY))
                    .toList();
            var joined = history.size() > 1 ? history : List.<Question>of();
            ofEachLegOnce(questions.stream()
                            .filter(question -> !joined.contains(question))
                            .map(Question::ask)
                            .toList())
                    .forEach(ask -> list.add(new ListItem(Markup.text("lq-question", ask))));
            if (!joined.isEmpty()) {
                list.add(new ListItem(Markup.text("lq-question", ofHistory(joined))));
            }
            shown.add(by(questions.getFirst(), page));
            shown.add(list);
        });
        return shown;
    }

    /** What of the history is not told, in one line. */
    private static String ofHistory(List<Question> questions) {
        return questions.stream()
                .map(question -> FieldWords.of(question.field()))
                .collect(Collectors.joining(", ", "History, not told: ", "."));
    }

    /** What is asked of both legs in the same words is said once. */
    private static List<String> ofEachLegOnce(List<String> asks) {
        return asks.stream()
                .map(ask -> {
                    var other = ask.contains(LEFT) ? ask.replace(LEFT, RIGHT) : ask.replace(RIGHT, LEFT);
                    return !other.equals(ask) && asks.contains(other)
                            ? ask.replace(LEFT, EACH).replace(RIGHT, EACH)
                            : ask;
                })
                .distinct()
                .toList();
    }

    private record Due(LocalDate by, Tier couldReveal) {}

    private static Span by(Question question, ReferralPage page) {
        return Markup.text(
                TimeWords.late(question.askBy(), page.today()) ? "lq-ask-day lq-overdue" : "lq-ask-day",
                "ask by " + TierWords.date(question.askBy()) + "; could reveal "
                        + TierWords.inSentence(question.couldReveal()));
    }
}
