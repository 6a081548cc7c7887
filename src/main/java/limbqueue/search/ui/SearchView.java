package limbqueue.search.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.dom.Element;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.referral.ReferralState;
import limbqueue.search.Answer;
import limbqueue.search.Extract;
import limbqueue.search.Found;
import limbqueue.search.Search;
import limbqueue.shell.CsvLink;

/** What was found, the best first, with the words that were sought marked where they stand. */
@Route("search")
@PageTitle("Search · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/search.css")
class SearchView extends Div implements BeforeEnterObserver {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

    private final Search search;
    private final AuditTrail auditTrail;

    SearchView(Search search, AuditTrail auditTrail) {
        this.search = search;
        this.auditTrail = auditTrail;
        addClassNames("lq-list-view", "lq-search-page");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        var typed = event.getLocation()
                .getQueryParameters()
                .getSingleParameter("q")
                .orElse("")
                .strip();
        var answer = search.find(typed);
        removeAll();
        var head = new Div(new H1("Search"));
        head.addClassName("lq-list-head");
        if (!answer.found().isEmpty()) {
            head.add(new CsvLink(auditTrail, "search results", HEADER, () -> rows(search.find(typed))));
        }
        var says = new Paragraph(says(answer, typed));
        says.addClassName("lq-search-says");
        says.getElement().setAttribute("role", "status");
        add(head, says);
        if (answer.kind() == Answer.Kind.TOO_SHORT || answer.found().isEmpty()) {
            add(how());
        } else {
            var list = new OrderedList();
            list.addClassName("lq-found");
            answer.found().forEach(found -> list.add(new ListItem(entry(found))));
            add(list);
        }
    }

    private static String says(Answer answer, String typed) {
        var count = answer.found().size();
        return switch (answer.kind()) {
            case TOO_SHORT ->
                typed.isEmpty()
                        ? "Type what you know of the referral."
                        : "“" + typed + "” is too short: type two letters or more.";
            case ALL -> (count == 1 ? "1 referral has " : count + " referrals have ") + "“" + typed + "”.";
            case THE_BEST ->
                "The first " + count + " of more that have “" + typed + "”. Type another word to find fewer.";
            case SIMILAR_NAMES ->
                count == 0
                        ? "Nothing has “" + typed + "”, and no name is similar."
                        : "Nothing has “" + typed + "”. "
                                + (count == 1
                                        ? "1 patient has a similar name:"
                                        : count + " patients have a similar name:");
        };
    }

    private static Component how() {
        var how = new Paragraph(
                "Names, references, identifiers, telephone numbers, referrers, hospitals, and the words of"
                        + " letters are searched. The beginning of a word is enough, accents do not matter, and several words must all"
                        + " be there. What stands in “quotes” must be there just so.");
        how.addClassName("lq-notice");
        return how;
    }

    private static Component entry(Found found) {
        var name = new Anchor("referrals/" + found.id(), found.patient().isBlank() ? "No name yet" : found.patient());
        name.getElement().setAttribute("dir", "auto");
        var heading = new H2(name);
        var facts = new Div();
        facts.addClassName("lq-found-facts");
        found.born().ifPresent(born -> facts.add(new Span("born " + DATE.format(born))));
        facts.add(new Span(found.reference()));
        facts.add(new Span(words(found.state())));
        facts.add(new Span("received " + DATE.format(found.received())));
        if (!found.referrer().isBlank()) {
            facts.add(new Span(found.referrer()));
        }
        var entry = new Div(heading, facts);
        found.extracts().forEach(extract -> entry.add(extract(extract)));
        return entry;
    }

    private static Component extract(Extract extract) {
        var where = new Span(extract.where() + ": ");
        where.addClassName("lq-quiet");
        var words = new Span();
        words.getElement().setAttribute("dir", "auto");
        for (var piece : extract.pieces()) {
            words.getElement()
                    .appendChild(
                            piece.sought()
                                    ? new Element("mark").setText(piece.text())
                                    : Element.createText(piece.text()));
        }
        var line = new Div(where, words);
        line.addClassName("lq-found-extract");
        return line;
    }

    private static String words(ReferralState state) {
        return switch (state) {
            case DRAFT -> "to complete";
            case QUEUED -> "with the physician";
            case INFORMATION_NEEDED -> "information needed";
            case APPROVED -> "approved";
            case RETURNED -> "returned";
            case SENT_TO_HOSPITAL -> "sent to hospital";
        };
    }

    private static final List<String> HEADER =
            List.of("Reference", "Patient", "Born", "State", "Received", "Referrer", "Found in");

    private static List<List<String>> rows(Answer answer) {
        return answer.found().stream()
                .map(found -> List.of(
                        found.reference(),
                        found.patient(),
                        found.born().map(LocalDate::toString).orElse(""),
                        words(found.state()),
                        found.received().toString(),
                        found.referrer(),
                        found.extracts().stream()
                                .map(Extract::where)
                                .reduce((one, other) -> one + ", " + other)
                                .orElse("")))
                .toList();
    }
}
