package limbqueue.calendar.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Optional;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Role;
import limbqueue.calendar.CalendarLink;
import limbqueue.calendar.CalendarLinks;
import limbqueue.calendar.CalendarOf;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.DayWords;
import limbqueue.shell.Pieces;

/** Links to the calendars of rooms and operators: made, shown once, revoked. */
@Route("sessions/calendars")
@PageTitle("Calendar links · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_MANAGER})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
@StyleSheet("context://ui/calendar.css")
class CalendarLinksView extends Div {

    private final CalendarLinks links;
    private final ComboBox<CalendarOf> of = new ComboBox<>("Room or operator");
    private final Div message = new Div();
    private final Div once = new Div();
    private final Div list = new Div();

    CalendarLinksView(CalendarLinks links) {
        this.links = links;
        addClassNames("lq-list-view", "lq-calendars");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status");
        of.setItems(links.choices());
        of.setItemLabelGenerator(CalendarLinksView::first);
        of.setRequiredIndicatorVisible(true);
        of.addValueChangeListener(_ -> of.setInvalid(false));
        of.setManualValidation(true);
        once.setVisible(false);
        add(
                Pieces.div(
                        "lq-list-head",
                        new H1("Calendar links"),
                        Pieces.div("lq-list-actions", new Anchor("sessions", "The sessions"))),
                message,
                Pieces.panel(
                        "lq-stack lq-calendar-make",
                        "Make a link",
                        new Paragraph("A calendar program reads the sessions of a room or of an operator by it, without"
                                + " signing in: day, time, room, operator and how many cases, from a month ago to a year"
                                + " ahead. It holds nothing else of any patient. Whoever has the link can read it, until"
                                + " you revoke it."),
                        Pieces.div("lq-calendar-ask", of, Pieces.primary("Make the link", this::make)),
                        once),
                list);
        show();
    }

    private void make() {
        if (of.isEmpty()) {
            of.setErrorMessage(
                    links.choices().isEmpty()
                            ? "No session has been entered yet. Enter one first."
                            : "Choose a room or an operator.");
            of.setInvalid(true);
            of.focus();
            return;
        }
        try {
            var chosen = of.getValue();
            showOnce(chosen, links.make(chosen));
            of.clear();
            said("The link to the calendar of %s is made.".formatted(chosen.words()));
        } catch (NotPossibleException notNow) {
            said(String.valueOf(notNow.getMessage()));
        }
        show();
    }

    private void showOnce(CalendarOf made, String path) {
        var address = new TextField("Address of the calendar of " + made.words());
        address.setReadOnly(true);
        address.setAutoselect(true);
        address.setWidthFull();
        // The browser knows under which address it sees us; the server may stand behind another one.
        getElement()
                .executeJs("return new URL($0, document.baseURI).href", path)
                .then(String.class, whole -> {
                    address.setValue(whole);
                    address.focus();
                });
        once.removeAll();
        once.addClassNames("lq-stack", "lq-calendar-once");
        once.add(
                address,
                new Paragraph(
                        "It is shown this once and kept nowhere. Copy it (it is marked: Ctrl+C), and subscribe to it"
                                + " in the calendar program."),
                new Div(Pieces.small("I have copied it", "I have copied the address", this::forget)));
        once.setVisible(true);
    }

    private void forget() {
        once.removeAll();
        once.setVisible(false);
        of.focus();
    }

    private void said(String words) {
        message.setText(words);
    }

    private void show() {
        list.removeAll();
        var all = links.all();
        if (all.isEmpty()) {
            list.add(Pieces.paragraph("lq-nothing", "No link has been made yet."));
            return;
        }
        var names = new NativeTableRow();
        for (var name : List.of("Calendar of", "Made", "Last read by a program", "State")) {
            var cell = new NativeTableHeaderCell(name);
            cell.getElement().setAttribute("scope", "col");
            names.add(cell);
        }
        var head = new NativeTableHeader();
        head.add(names);
        var body = new NativeTableBody();
        all.forEach(link -> body.add(row(link)));
        var table = new NativeTable();
        table.addClassName("lq-table");
        table.add(head, body);
        list.add(Pieces.panel("lq-stack", "Links", table));
    }

    private NativeTableRow row(CalendarLink link) {
        var name = new NativeTableHeaderCell(first(link.of()));
        name.getElement().setAttribute("scope", "row");
        var state = new NativeTableCell();
        state.add(state(link));
        return new NativeTableRow(
                name,
                new NativeTableCell("%s by %s".formatted(DayWords.moment(link.at()), link.author())),
                new NativeTableCell(link.fetched().map(DayWords::moment).orElse("never")),
                state);
    }

    private Component state(CalendarLink link) {
        return link.revoked()
                .<Component>map(revoked -> Pieces.text(
                        "lq-quiet", "Revoked %s by %s".formatted(DayWords.moment(revoked.at()), revoked.author())))
                .orElseGet(() -> Pieces.small(
                        "Revoke", "Revoke the link of %s".formatted(link.of().words()), () -> confirm(link)));
    }

    private void confirm(CalendarLink link) {
        new AskingDialog(
                        "Revoke the link to the calendar of %s?"
                                .formatted(link.of().words()),
                        List.of(new Paragraph(
                                "Programs that read it are told so and get nothing more. It cannot be given back;"
                                        + " a new link can be made.")),
                        "Revoke",
                        () -> {
                            revoke(link);
                            return Optional.empty();
                        })
                .open();
    }

    private void revoke(CalendarLink link) {
        try {
            links.revoke(link.id());
            said("The link to the calendar of %s is revoked."
                    .formatted(link.of().words()));
        } catch (NotPossibleException notNow) {
            said(String.valueOf(notNow.getMessage()));
        }
        show();
    }

    private static String first(CalendarOf of) {
        return switch (of.kind()) {
            case PLACE -> "Room: " + of.name();
            case OPERATOR -> "Operator: " + of.name();
        };
    }
}
