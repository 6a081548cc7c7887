package limbqueue.preparation.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.grid.GridVariant;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.NativeButton;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.data.value.ValueChangeMode;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.Role;
import limbqueue.practice.PracticeSettings;
import limbqueue.preparation.NextThing.Group;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationLine;
import limbqueue.shell.CsvLink;
import limbqueue.shell.Pieces;
import limbqueue.triage.Policy;

/** Every case under preparation, with the one thing to do next: what must be chased first. */
@Route("preparation")
@PageTitle("Preparation · LimbQueue")
@Menu(order = 2.5, title = "Preparation")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
class PreparationView extends Div {

    private final Preparation preparation;
    private final Policy policy;
    private final Grid<PreparationLine> grid = new Grid<>();
    private final TextField search = new TextField();
    private final Map<Optional<Group>, NativeButton> chips = new LinkedHashMap<>();
    private final Span nothing = new Span();

    private List<PreparationLine> lines = List.of();
    private Optional<Group> shown = Optional.empty();
    private LocalDate today;

    PreparationView(Preparation preparation, PracticeSettings settings, AuditTrail auditTrail) {
        this.preparation = preparation;
        this.policy = settings.policy();
        this.today = preparation.today();
        addClassNames("lq-list-view", "lq-preparation");
        var right = new Div(
                new CsvLink(auditTrail, "preparation", CSV_HEADER, () -> csv(preparation.worklist())),
                new Anchor("stents", "Stock of covered stents"));
        right.addClassName("lq-list-actions");
        var head = new Div(new H1("Preparation"), right);
        head.addClassName("lq-list-head");
        search.setAriaLabel("Find by patient, reference or words of the next step");
        search.setPlaceholder("Patient, reference or next step");
        search.setClearButtonVisible(true);
        search.setValueChangeMode(ValueChangeMode.LAZY);
        search.addValueChangeListener(_ -> filter());
        var filters = new Div();
        filters.addClassName("lq-filters");
        filters.getElement().setAttribute("role", "group").setAttribute("aria-label", "Which cases");
        addChip(filters, Optional.empty());
        for (var group : Group.values()) {
            addChip(filters, Optional.of(group));
        }
        var bar = new Div(filters, search);
        bar.addClassName("lq-list-bar");
        nothing.addClassName("lq-nothing");
        nothing.getElement().setAttribute("role", "status");
        columns();
        add(head, bar, nothing, grid);
    }

    private void addChip(Div filters, Optional<Group> group) {
        var chip = new NativeButton("", _ -> {
            shown = group;
            filter();
        });
        chip.addClassName("lq-chip");
        chips.put(group, chip);
        filters.add(chip);
    }

    @Override
    protected void onAttach(AttachEvent attachEvent) {
        super.onAttach(attachEvent);
        today = preparation.today();
        lines = preparation.worklist();
        filter();
    }

    private void columns() {
        grid.addClassName("lq-worklist");
        grid.addThemeVariants(GridVariant.LUMO_COMPACT, GridVariant.LUMO_NO_BORDER);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        grid.addComponentColumn(this::next)
                .setHeader("Do next")
                .setWidth("17rem")
                .setFlexGrow(4);
        grid.addComponentColumn(PreparationView::patient)
                .setHeader("Patient")
                .setComparator(Comparator.comparing(PreparationLine::patient))
                .setWidth("10rem")
                .setFlexGrow(1);
        grid.addComponentColumn(line -> line.starts()
                        .map(starts -> twoLines(Words.dayAndTime(starts), line.room()))
                        .orElseGet(() -> twoLines("not booked", "")))
                .setHeader("Procedure")
                .setComparator(Comparator.comparing(line -> line.starts().orElse(LocalDateTime.MAX)))
                .setWidth("9.5rem")
                .setFlexGrow(1);
        grid.addComponentColumn(this::red)
                .setHeader("Still open")
                .setComparator(Comparator.comparing(PreparationLine::red))
                .setWidth("6.5rem")
                .setFlexGrow(0);
        grid.addComponentColumn(line -> twoLines(
                        Words.tier(line.tier(), policy),
                        line.targetDate().map(day -> "by " + Words.date(day)).orElse("")))
                .setHeader("How soon")
                .setComparator(Comparator.comparing(PreparationLine::tier)
                        .thenComparing(line -> line.targetDate().orElse(LocalDate.MAX)))
                .setWidth("9rem")
                .setFlexGrow(0);
        grid.addComponentColumn(line -> twoLines(line.reference(), Words.of(line.state())))
                .setHeader("Reference, state")
                .setComparator(Comparator.comparing(PreparationLine::reference))
                .setWidth("9.5rem")
                .setFlexGrow(0);
        grid.addItemClickListener(event -> getUI().ifPresent(ui -> ui.navigate(address(event.getItem()))));
    }

    private Component next(PreparationLine line) {
        var next = line.next();
        var what = new Span(next.what());
        what.addClassName("lq-next-what");
        var lines = new Div(what);
        lines.addClassName("lq-two-lines");
        next.on().ifPresent(day -> {
            var when = new Span(Words.date(day) + ", " + Words.until(day, today));
            when.addClassName(day.isBefore(today) ? "lq-next-late" : "lq-quiet");
            lines.add(when);
        });
        return lines;
    }

    private Component red(PreparationLine line) {
        if (line.red() == 0) {
            return Pieces.text("lq-quiet", "none");
        }
        return Pieces.text("lq-strong", line.red() == 1 ? "1 item" : line.red() + " items");
    }

    private static String address(PreparationLine line) {
        return "referrals/" + line.id() + "/preparation";
    }

    private static Component patient(PreparationLine line) {
        var link = new Anchor(address(line), line.patient().isBlank() ? "No name yet" : line.patient());
        link.addClassName("lq-row-link");
        var lines = new Div(link);
        lines.addClassName("lq-two-lines");
        line.born().ifPresent(born -> lines.add(Pieces.text("lq-quiet", "born " + Words.date(born))));
        return lines;
    }

    private static Component twoLines(String first, String second) {
        var lines = new Div(new Span(first), Pieces.text("lq-quiet", second));
        lines.addClassName("lq-two-lines");
        return lines;
    }

    private void filter() {
        var sought = search.getValue().strip().toLowerCase(Locale.ROOT);
        var found = lines.stream().filter(line -> matches(line, sought)).toList();
        chips.forEach((group, chip) -> {
            var count = found.stream().filter(line -> takes(group, line)).count();
            chip.setText(group.map(Words::of).orElse("All") + " " + count);
            chip.setVisible(group.isEmpty() || count > 0 || group.equals(shown));
            chip.getElement().setAttribute("aria-pressed", String.valueOf(group.equals(shown)));
        });
        var here = found.stream().filter(line -> takes(shown, line)).toList();
        grid.setItems(here);
        grid.setAllRowsVisible(here.size() <= 100);
        grid.setVisible(!here.isEmpty());
        nothing.setVisible(here.isEmpty());
        nothing.setText(
                sought.isEmpty()
                        ? "No case here. Cases come as soon as a referral is put before the physician."
                        : "No case here with “" + search.getValue().strip() + "”.");
    }

    private static final List<String> CSV_HEADER = List.of(
            "Do next",
            "By",
            "Patient",
            "Born",
            "Procedure",
            "Room",
            "Still open",
            "How soon",
            "Target date",
            "Reference",
            "State");

    private List<List<String>> csv(List<PreparationLine> cases) {
        return cases.stream()
                .map(line -> List.of(
                        line.next().what(),
                        line.next().on().map(LocalDate::toString).orElse(""),
                        line.patient(),
                        line.born().map(LocalDate::toString).orElse(""),
                        line.starts().map(LocalDateTime::toString).orElse(""),
                        line.room(),
                        String.valueOf(line.red()),
                        Words.tier(line.tier(), policy),
                        line.targetDate().map(LocalDate::toString).orElse(""),
                        line.reference(),
                        Words.of(line.state())))
                .toList();
    }

    private static boolean takes(Optional<Group> group, PreparationLine line) {
        return group.map(wanted -> line.next().group() == wanted).orElse(true);
    }

    private static boolean matches(PreparationLine line, String sought) {
        return sought.isEmpty()
                || (line.patient() + "\n" + line.reference() + "\n"
                                + line.next().what())
                        .toLowerCase(Locale.ROOT)
                        .contains(sought);
    }
}
