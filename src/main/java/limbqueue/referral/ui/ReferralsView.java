package limbqueue.referral.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.Key;
import com.vaadin.flow.component.KeyModifier;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.grid.GridVariant;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.data.value.ValueChangeMode;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.referral.ReferralLine;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.shell.CsvLink;
import limbqueue.triage.Tier;

/** All referrals, as the office works through them. */
@Route("referrals")
@PageTitle("Referrals")
@Menu(order = 2, title = "Referrals")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
class ReferralsView extends Div {

    private final Referrals referrals;
    private final Section sameDay = new Section();
    private final Grid<ReferralLine> grid = new Grid<>();
    private final TextField search = new TextField();
    private final Map<Show, NativeButton> chips = new EnumMap<>(Show.class);
    private final Span nothing = new Span();

    private List<ReferralLine> lines = List.of();
    private Show show = Show.OPEN;

    /** Which referrals are shown. */
    private enum Show {
        OPEN("All open"),
        TO_COMPLETE("To complete"),
        INFORMATION("Information needed"),
        PHYSICIAN("With the physician"),
        DECIDED("Decided");

        private final String label;

        Show(String label) {
            this.label = label;
        }

        boolean takes(ReferralLine line) {
            return switch (this) {
                case OPEN -> TierWords.isOpen(line.state());
                case TO_COMPLETE -> line.state() == ReferralState.DRAFT;
                case INFORMATION -> line.state() == ReferralState.INFORMATION_NEEDED;
                case PHYSICIAN -> line.state() == ReferralState.QUEUED;
                case DECIDED -> !TierWords.isOpen(line.state());
            };
        }
    }

    ReferralsView(Referrals referrals, AuditTrail auditTrail, CurrentPerson person) {
        this.referrals = referrals;
        addClassName("lq-list-view");
        var begin = new Button("New referral", _ -> begin());
        begin.addThemeVariants(ButtonVariant.LUMO_PRIMARY);
        begin.addClickShortcut(Key.KEY_N, KeyModifier.ALT);
        begin.setTooltipText("Alt+N");
        begin.getElement().setAttribute("aria-keyshortcuts", "Alt+N");
        var bring = new Anchor("intake/csv", "Import a table");
        bring.setVisible(person.get().role() == Role.COORDINATOR);
        var letter = new Anchor("intake/letter", "From a letter");
        letter.addClassName("lq-from-letter");
        var right = new Div(
                letter,
                bring,
                new Anchor("same-patient", "Same patient?"),
                new CsvLink(auditTrail, "referrals", CSV_HEADER, () -> csv(referrals.worklist())),
                begin);
        right.addClassName("lq-list-actions");
        var head = new Div(new H1("Referrals"), right);
        head.addClassName("lq-list-head");

        sameDay.addClassName("lq-same-day-band");
        sameDay.getElement().setAttribute("aria-label", "Same day");

        search.setAriaLabel("Find by patient, reference or referrer");
        search.setPlaceholder("Patient, reference or referrer");
        search.setClearButtonVisible(true);
        search.setValueChangeMode(ValueChangeMode.LAZY);
        search.addValueChangeListener(_ -> filter());
        var filters = new Div();
        filters.addClassName("lq-filters");
        filters.getElement().setAttribute("role", "group").setAttribute("aria-label", "Which referrals");
        for (var choice : Show.values()) {
            var chip = new NativeButton("", _ -> {
                show = choice;
                filter();
            });
            chip.addClassName("lq-chip");
            chips.put(choice, chip);
            filters.add(chip);
        }
        var bar = new Div(filters, search);
        bar.addClassName("lq-list-bar");

        nothing.addClassName("lq-nothing");
        nothing.getElement().setAttribute("role", "status");
        columns();
        add(head, sameDay, bar, nothing, grid);
    }

    @Override
    protected void onAttach(AttachEvent attachEvent) {
        super.onAttach(attachEvent);
        lines = referrals.worklist();
        showSameDay();
        filter();
    }

    private void columns() {
        grid.addClassName("lq-worklist");
        grid.addThemeVariants(GridVariant.LUMO_COMPACT, GridVariant.LUMO_NO_BORDER);
        grid.setAllRowsVisible(true);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        grid.addComponentColumn(line -> new UrgencyMark(tier(line), line.targetDate()))
                .setHeader("How soon")
                .setComparator(Comparator.comparing(ReferralsView::tier)
                        .thenComparing(line -> line.targetDate().orElse(LocalDate.MAX)))
                .setWidth("11.5rem")
                .setFlexGrow(0);
        grid.addComponentColumn(ReferralsView::patient)
                .setHeader("Patient")
                .setComparator(Comparator.comparing(ReferralLine::patient))
                .setWidth("9rem")
                .setFlexGrow(2);
        grid.addComponentColumn(line ->
                        twoLines(line.referrer().isBlank() ? "No referrer yet" : line.referrer(), line.reference()))
                .setHeader("Referrer, reference")
                .setComparator(Comparator.comparing(ReferralLine::referrer))
                .setWidth("11rem")
                .setFlexGrow(3);
        grid.addColumn(line -> TierWords.date(line.received()))
                .setHeader("Received")
                .setComparator(Comparator.comparing(ReferralLine::received))
                .setWidth("7rem")
                .setFlexGrow(0);
        grid.addComponentColumn(line -> twoLines(TierWords.of(line.state()), "saved by " + line.savedBy()))
                .setHeader("State")
                .setComparator(Comparator.comparing(ReferralLine::state))
                .setWidth("11rem")
                .setFlexGrow(1);
        grid.addComponentColumn(this::open)
                .setHeader("To ask and mend")
                .setComparator(Comparator.comparing(line -> line.askBy().orElse(LocalDate.MAX)))
                .setWidth("11.5rem")
                .setFlexGrow(1);
        grid.addItemClickListener(event -> getUI().ifPresent(ui -> ui.navigate(address(event.getItem()))));
    }

    private static Tier tier(ReferralLine line) {
        return line.decidedTier().orElse(line.proposedTier());
    }

    /** The page of an open referral is its form. */
    private static String address(ReferralLine line) {
        return "referrals/" + line.id() + (TierWords.isOpen(line.state()) ? "/edit" : "");
    }

    private static Component patient(ReferralLine line) {
        var link = new Anchor(address(line), line.patient().isBlank() ? "No name yet" : line.patient());
        link.addClassName("lq-row-link");
        var lines = new Div(link);
        lines.addClassName("lq-two-lines");
        line.born().ifPresent(born -> lines.add(quiet("born " + TierWords.date(born))));
        return lines;
    }

    private Component open(ReferralLine line) {
        var lines = new Div();
        lines.addClassName("lq-two-lines");
        if (TierWords.isOpen(line.state())) {
            if (line.problems() > 0) {
                var problems = new Span(line.problems() == 1 ? "1 value to mend" : line.problems() + " values to mend");
                problems.addClassName("lq-problem");
                lines.add(problems);
            }
            if (line.openQuestions() > 0) {
                var today = referrals.today();
                var late = line.askBy().filter(day -> day.isBefore(today)).isPresent();
                var questions =
                        new Span((line.openQuestions() == 1 ? "1 question" : line.openQuestions() + " questions")
                                + line.askBy()
                                        .map(day -> late
                                                ? ", late since " + TierWords.date(day)
                                                : day.equals(today) ? ", ask today" : ", ask by " + TierWords.date(day))
                                        .orElse(""));
                questions.setClassName("lq-late", late);
                lines.add(questions);
            }
        }
        return lines;
    }

    private static Component twoLines(String first, String second) {
        var lines = new Div(new Span(first), quiet(second));
        lines.addClassName("lq-two-lines");
        return lines;
    }

    private static Span quiet(String text) {
        var quiet = new Span(text);
        quiet.addClassName("lq-quiet");
        return quiet;
    }

    private void showSameDay() {
        sameDay.removeAll();
        var urgent = lines.stream()
                .filter(line -> TierWords.isOpen(line.state()) && tier(line) == Tier.SAME_DAY)
                .toList();
        sameDay.setVisible(!urgent.isEmpty());
        sameDay.add(new H2("Same day: a physician must see these now"));
        for (var line : urgent) {
            var link = new Anchor(address(line), line.patient().isBlank() ? "No name yet" : line.patient());
            var facts = new Span(line.reference() + " · " + TierWords.of(line.state()));
            facts.addClassName("lq-same-day-facts");
            var because = new Span(line.because());
            because.addClassName("lq-same-day-because");
            var row = new Div(link, facts, because);
            row.addClassName("lq-same-day-row");
            sameDay.add(row);
        }
    }

    private void filter() {
        var sought = search.getValue().strip().toLowerCase(Locale.ROOT);
        var found = lines.stream().filter(line -> matches(line, sought)).toList();
        chips.forEach((choice, chip) -> {
            chip.setText(
                    choice.label + " " + found.stream().filter(choice::takes).count());
            chip.getElement().setAttribute("aria-pressed", String.valueOf(choice == show));
        });
        var shown = found.stream().filter(show::takes).toList();
        grid.setItems(shown);
        grid.setVisible(!shown.isEmpty());
        nothing.setVisible(shown.isEmpty());
        nothing.setText(
                sought.isEmpty()
                        ? "No referral here."
                        : "No referral here with “" + search.getValue().strip() + "”.");
    }

    private static boolean matches(ReferralLine line, String sought) {
        return sought.isEmpty()
                || (line.patient() + "\n" + line.reference() + "\n" + line.referrer())
                        .toLowerCase(Locale.ROOT)
                        .contains(sought);
    }

    private static final List<String> CSV_HEADER = List.of(
            "Reference",
            "Patient",
            "Born",
            "Referrer",
            "Received",
            "State",
            "How soon",
            "Target date",
            "Why",
            "Open questions",
            "Ask by",
            "Values to mend",
            "Saved by");

    private static List<List<String>> csv(List<ReferralLine> lines) {
        return lines.stream()
                .map(line -> List.of(
                        line.reference(),
                        line.patient(),
                        line.born().map(LocalDate::toString).orElse(""),
                        line.referrer(),
                        line.received().toString(),
                        TierWords.of(line.state()),
                        TierWords.of(tier(line)),
                        line.targetDate().map(LocalDate::toString).orElse(""),
                        line.because(),
                        String.valueOf(line.openQuestions()),
                        line.askBy().map(LocalDate::toString).orElse(""),
                        String.valueOf(line.problems()),
                        line.savedBy()))
                .toList();
    }

    private void begin() {
        var referral = referrals.begin();
        getUI().ifPresent(ui -> ui.navigate("referrals/" + referral.id() + "/edit"));
    }
}
