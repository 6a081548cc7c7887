package limbqueue.directory.ui;

import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.button.ButtonVariant;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.grid.Grid;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.data.value.ValueChangeMode;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.Role;
import limbqueue.directory.Directory;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.DirectoryKind;

/** Referring doctors and hospitals, to look up, to correct, and to merge where one stands twice. */
@Route("directory")
@PageTitle("Directory · LimbQueue")
@Menu(title = "Directory", order = 4)
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_MANAGER})
@StyleSheet("context://ui/directory.css")
class DirectoryView extends Section {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("d MMM uuuu", Locale.UK);

    private final Directory directory;
    private final Grid<DirectoryEntry> referrers = new Grid<>();
    private final Grid<DirectoryEntry> hospitals = new Grid<>();
    private final Div alike = new Div();
    private final TextField search = new TextField();

    DirectoryView(Directory directory) {
        this.directory = directory;
        addClassName("lq-page");
        search.setAriaLabel("Find by name, practice, place or number");
        search.setPlaceholder("Name, practice, place or number");
        search.setClearButtonVisible(true);
        search.setWidth("20rem");
        search.setValueChangeMode(ValueChangeMode.LAZY);
        search.addValueChangeListener(_ -> refresh());
        var head = new Div(new H1("Directory"), search);
        head.addClassName("lq-page-head");

        prepare(referrers);
        referrers
                .addComponentColumn(entry -> twoLines(entry.name(), entry.organisation()))
                .setHeader("Referring doctor")
                .setWidth("11.5rem")
                .setFlexGrow(2);
        addColumns(referrers);
        prepare(hospitals);
        hospitals
                .addComponentColumn(entry -> twoLines(entry.name(), ""))
                .setHeader("Hospital")
                .setWidth("11.5rem")
                .setFlexGrow(2);
        addColumns(hospitals);

        var how = new Paragraph("Whoever a referral names is kept here when it goes to the physician, and offered when"
                + " the next one is typed. A later referral adds what is missing and changes nothing else.");
        how.addClassName("lq-notice");
        addClassName("lq-directory");
        alike.addClassName("lq-directory-alike");
        add(head, how, alike, new H2("Referring doctors"), referrers, new H2("Hospitals"), hospitals);
        refresh();
    }

    private static void prepare(Grid<DirectoryEntry> grid) {
        grid.setAllRowsVisible(true);
        grid.setSelectionMode(Grid.SelectionMode.NONE);
        grid.setEmptyStateText("Nobody here yet, or nobody of this name.");
    }

    private void addColumns(Grid<DirectoryEntry> grid) {
        grid.addComponentColumn(entry -> lines(entry.address()))
                .setHeader("Address")
                .setWidth("8.5rem");
        grid.addComponentColumn(entry -> lines(Stream.of(
                                labelled("Tel. ", entry.phone()),
                                labelled("Fax ", entry.fax()),
                                entry.email(),
                                labelled("Letters by ", way(entry)))
                        .filter(line -> !line.isEmpty())
                        .collect(Collectors.joining("\n"))))
                .setHeader("Reached by")
                .setWidth("10rem")
                .setFlexGrow(1);
        grid.addColumn(entry -> DAY.format(entry.lastEntered()))
                .setHeader("Last named")
                .setWidth("7rem")
                .setFlexGrow(0);
        grid.addComponentColumn(this::actions)
                .setHeader("Actions")
                .setWidth("6.75rem")
                .setFlexGrow(0);
    }

    private static String labelled(String label, String value) {
        return value.isEmpty() ? "" : label + value;
    }

    static String way(DirectoryEntry entry) {
        return entry.prefers().equals("email") ? "e-mail" : entry.prefers();
    }

    private static Div twoLines(String first, String second) {
        var name = new Div(first);
        name.addClassName("lq-strong");
        var lines = new Div(name);
        lines.addClassName("lq-wrapping");
        if (!second.isEmpty()) {
            lines.add(new Div(second));
        }
        return lines;
    }

    private static Div lines(String text) {
        var lines = new Div(text);
        lines.addClassName("lq-wrapping");
        return lines;
    }

    private Button actions(DirectoryEntry entry) {
        var correct = new Button(
                "Correct", _ -> new DirectoryEntryDialog(directory, entry, others(entry), this::refresh).open());
        correct.addThemeVariants(ButtonVariant.SMALL);
        correct.setAriaLabel("Correct or merge " + entry.name());
        return correct;
    }

    private List<DirectoryEntry> others(DirectoryEntry entry) {
        return directory.known(entry.kind()).stream()
                .filter(other -> other.id() != entry.id())
                .toList();
    }

    /** What may stand twice, to be looked at; nothing where nothing does. */
    private void showAlike() {
        alike.removeAll();
        var pairs = Stream.of(DirectoryKind.REFERRER, DirectoryKind.HOSPITAL)
                .flatMap(kind -> directory.alike(kind).stream())
                .toList();
        if (pairs.isEmpty()) {
            return;
        }
        var list = new UnorderedList();
        pairs.forEach(pair -> {
            var look = new Button(
                    "Compare",
                    _ -> new DirectoryEntryDialog(directory, pair.other(), others(pair.other()), this::refresh)
                            .sameAs(pair.one())
                            .open());
            look.addThemeVariants(ButtonVariant.SMALL);
            look.setAriaLabel("Compare " + called(pair.other()) + " with " + called(pair.one()));
            list.add(new ListItem(new Span(called(pair.other()) + " and " + called(pair.one())), look));
        });
        alike.add(new H2("Perhaps twice in the directory"), list);
    }

    static String called(DirectoryEntry entry) {
        return entry.organisation().isEmpty() ? entry.name() : entry.name() + ", " + entry.organisation();
    }

    private void refresh() {
        showAlike();
        var sought = search.getValue().strip().toLowerCase(Locale.ROOT);
        referrers.setItems(found(DirectoryKind.REFERRER, sought));
        hospitals.setItems(found(DirectoryKind.HOSPITAL, sought));
    }

    private List<DirectoryEntry> found(DirectoryKind kind, String sought) {
        return directory.known(kind).stream()
                .filter(entry -> sought.isEmpty()
                        || String.join(
                                        "\n",
                                        entry.name(),
                                        entry.organisation(),
                                        entry.address(),
                                        entry.phone(),
                                        entry.fax(),
                                        entry.email())
                                .toLowerCase(Locale.ROOT)
                                .contains(sought))
                .toList();
    }
}
