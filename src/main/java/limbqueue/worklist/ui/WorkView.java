package limbqueue.worklist.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.OrderedList;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.live.Changes;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.DayWords;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.worklist.Work;
import limbqueue.worklist.WorkLine;
import limbqueue.worklist.WorkList;
import limbqueue.worklist.Worklists;

/** What is to be done, in lists that empty; their counts are those of this moment. */
@Route("work")
@PageTitle("Work · LimbQueue")
@Menu(order = 1.5, title = "Work")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/urgency.css")
@StyleSheet("context://ui/work.css")
@JavaScript("context://ui/work.js")
class WorkView extends Div implements BeforeEnterObserver {

    private static final String LIST = "list";

    /** Lines on one page: what a person works off before turning it. */
    private static final int LINES = 50;

    private final Worklists worklists;
    private final PracticeSettings settings;
    private final Span day = new Span();
    private final Map<WorkList, NativeButton> chips = new EnumMap<>(WorkList.class);
    private final Span nothing = new Span();
    private final Div columns = columns();
    private final OrderedList lines = new OrderedList();
    private final Map<Long, Shown> shown = new HashMap<>();
    private final Div pages = new Div();
    private final Span place = new Span();
    private final NativeButton before = new NativeButton("Page before", _ -> turn(-1));
    private final NativeButton next = new NativeButton("Next page", _ -> turn(1));

    private WorkList list = WorkList.TO_COMPLETE;
    private int page;

    private record Shown(WorkLine line, ListItem item) {}

    WorkView(Worklists worklists, PracticeSettings settings, Changes changes, StandingSignIn signIn) {
        this.worklists = worklists;
        this.settings = settings;
        addClassNames("lq-list-view", "lq-work");
        day.addClassName("lq-quiet");
        var head = new Div(
                new Div(new H1("Work"), day),
                new Div(
                        new Anchor("reminders", "Days of reminders and calls"),
                        new Span(" · "),
                        new Anchor("same-day", "Same-day cases")));
        head.addClassName("lq-list-head");
        var filters = new Div();
        filters.addClassName("lq-filters");
        filters.getElement().setAttribute("role", "group").setAttribute("aria-label", "Lists");
        for (var one : WorkList.values()) {
            var chip = new NativeButton("", _ -> choose(one));
            chip.addClassName("lq-chip");
            chip.getElement().setAttribute("aria-keyshortcuts", String.valueOf(one.ordinal() + 1));
            chips.put(one, chip);
            filters.add(chip);
        }
        var bar = new Div(filters);
        bar.addClassName("lq-list-bar");
        nothing.addClassName("lq-nothing");
        nothing.getElement().setAttribute("role", "status");
        lines.addClassName("lq-work-lines");
        before.addClassNames("lq-button", "lq-work-before");
        next.addClassNames("lq-button", "lq-work-next");
        pages.add(before, next, place);
        pages.addClassName("lq-work-pages");
        add(
                head,
                bar,
                Pieces.paragraph(
                        "lq-keys",
                        "Keys: 1 to 8 choose a list, j and k move, Enter opens, n and p turn the pages. Counts are those of"
                                + " this moment."),
                new Notice(TriageResult.NOTICE),
                nothing,
                columns,
                lines,
                pages);
        KeptUpToDate.whileShown(this, changes, signIn, _ -> show());
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        list = event.getLocation()
                .getQueryParameters()
                .getSingleParameter(LIST)
                .flatMap(WorkView::named)
                .orElse(WorkList.TO_COMPLETE);
        page = 0;
        if (isAttached()) {
            show();
        }
    }

    private static Optional<WorkList> named(String name) {
        for (var one : WorkList.values()) {
            if (name(one).equals(name)) {
                return Optional.of(one);
            }
        }
        return Optional.empty();
    }

    private static String name(WorkList list) {
        return list.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private void choose(WorkList chosen) {
        // The address says which list it is, so that the way back leads to it.
        UI.getCurrent().navigate(WorkView.class, QueryParameters.of(LIST, name(chosen)));
    }

    private void turn(int by) {
        page += by;
        show();
    }

    private void show() {
        var work = worklists.now();
        day.setText(DayWords.date(work.today()));
        chips.forEach((one, chip) -> {
            chip.setText(WorkWords.of(one) + " " + work.count(one));
            chip.getElement().setAttribute("aria-pressed", String.valueOf(one == list));
        });
        var all = work.of(list);
        var last = Math.max(0, (all.size() - 1) / LINES);
        page = Math.clamp(page, 0, last);
        show(all.subList(page * LINES, Math.min(all.size(), (page + 1) * LINES)), work);
        nothing.setVisible(all.isEmpty());
        nothing.setText(WorkWords.nothing(list));
        columns.setVisible(!all.isEmpty());
        pages.setVisible(last > 0);
        before.setEnabled(page > 0);
        next.setEnabled(page < last);
        place.setText("Page " + (page + 1) + " of " + (last + 1));
    }

    /** Touches only the lines that are not what they were, so that whoever is on one of the others stays there. */
    private void show(List<WorkLine> now, Work work) {
        var ids = now.stream().map(WorkLine::id).toList();
        shown.entrySet().removeIf(entry -> {
            var gone = !ids.contains(entry.getKey());
            if (gone) {
                lines.remove(entry.getValue().item());
            }
            return gone;
        });
        for (var at = 0; at < now.size(); at++) {
            var line = now.get(at);
            var was = shown.get(line.id());
            if (was != null && was.line().equals(line)) {
                if (lines.indexOf(was.item()) != at) {
                    lines.addComponentAtIndex(at, was.item());
                }
                continue;
            }
            if (was != null) {
                lines.remove(was.item());
            }
            var item = new ListItem(link(line, work));
            shown.put(line.id(), new Shown(line, item));
            lines.addComponentAtIndex(at, item);
        }
        lines.getElement().executeJs("window.limbqueueWork && window.limbqueueWork.keepFocus()");
    }

    private Anchor link(WorkLine line, Work work) {
        var step = line.step();
        var patient = Pieces.div(
                "lq-two-lines",
                Pieces.text("lq-work-name", line.patient().isBlank() ? "No name yet" : line.patient()),
                Pieces.text(
                        "lq-quiet",
                        line.reference()
                                + line.born()
                                        .map(born -> ", born " + DayWords.date(born))
                                        .orElse("")));
        var due = Pieces.div("lq-two-lines lq-work-due");
        step.due().ifPresent(on -> {
            due.add(new Span(DayWords.date(on)));
            due.add(Pieces.text(
                    on.isBefore(work.today()) ? "lq-work-late" : "lq-quiet", DayWords.until(on, work.today())));
        });
        var link = new Anchor(
                WorkWords.address(line.id(), step.page()),
                urgency(line),
                patient,
                Pieces.text("lq-work-what", step.what()),
                due);
        link.addClassName("lq-work-line");
        link.getElement().setAttribute("data-referral", String.valueOf(line.id()));
        return link;
    }

    private Span urgency(WorkLine line) {
        var mark = new Span(Pieces.text("lq-urgency-tier", tier(line.tier())));
        mark.addClassNames(
                "lq-urgency",
                "lq-urgency-" + line.tier().name().toLowerCase(Locale.ROOT).replace('_', '-'));
        if (line.tier() == Tier.SAME_DAY) {
            mark.add(Pieces.text("lq-urgency-what", "send to hospital now"));
        } else {
            line.targetDate()
                    .ifPresent(target -> mark.add(Pieces.text("lq-urgency-what", "by " + DayWords.date(target))));
        }
        return mark;
    }

    private String tier(Tier tier) {
        if (tier == Tier.SAME_DAY) {
            return "Same day";
        }
        var phrase = TierPhrase.of(tier, settings.policy());
        return phrase.substring(0, 1).toUpperCase(Locale.ROOT) + phrase.substring(1);
    }

    /** What the columns are; every line says it in its words, so it is hidden from those who listen. */
    private static Div columns() {
        var heads = Pieces.div(
                "lq-work-columns", new Span("How soon"), new Span("Patient"), new Span("Do next"), new Span("Due"));
        heads.getElement().setAttribute("aria-hidden", "true");
        return heads;
    }
}
