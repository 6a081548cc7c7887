package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.H2;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.NativeTable;
import com.vaadin.flow.component.html.NativeTableBody;
import com.vaadin.flow.component.html.NativeTableCell;
import com.vaadin.flow.component.html.NativeTableHeader;
import com.vaadin.flow.component.html.NativeTableHeaderCell;
import com.vaadin.flow.component.html.NativeTableRow;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Role;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.DayList;
import limbqueue.timetable.DayLists;
import limbqueue.timetable.Sessions;

/** Who comes on one day, for paper. */
@Route("sessions/day/:date")
@PageTitle("List of the day · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/sessions.css")
class DayListView extends Div implements BeforeEnterObserver {

    private final DayLists lists;
    private final Sessions sessions;

    DayListView(DayLists lists, Sessions sessions) {
        this.lists = lists;
        this.sessions = sessions;
        addClassNames("lq-list-view", "lq-day-list");
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        removeAll();
        var typed = event.getRouteParameters().get("date").orElse("");
        var date = date(typed);
        if (date.isEmpty()) {
            add(
                    new H1("List of a day"),
                    Pieces.paragraph("lq-strong", "The address names no day. Write it as sessions/day/2026-03-05."),
                    new Anchor("sessions", "The sessions"));
            return;
        }
        show(lists.of(date.get()));
    }

    private static Optional<LocalDate> date(String typed) {
        try {
            return Optional.of(LocalDate.parse(typed)).filter(date -> date.getYear() >= 2000 && date.getYear() < 2200);
        } catch (DateTimeException noDate) {
            return Optional.empty();
        }
    }

    private void show(DayList list) {
        var head = Pieces.div(
                "lq-list-head",
                new H1(SessionWords.longDay(list.date())),
                Pieces.div(
                        "lq-list-actions lq-not-printed",
                        new Anchor("sessions?week=" + list.date(), "The week"),
                        Pieces.small(
                                "Print", "Print the list", () -> getElement().executeJs("window.print()"))));
        add(head, new Notice(list.notice()));
        if (list.sessions().isEmpty()) {
            add(Pieces.paragraph("lq-nothing", "There is no session on this day."));
        }
        list.sessions().forEach(session -> add(session(session, sessions.today())));
    }

    private static Component session(DayList.SessionList list, LocalDate today) {
        var kept = list.session().kept();
        var section = new Section(new H2(SessionWords.title(kept.session())));
        section.addClassName("lq-card");
        section.add(Pieces.paragraph(
                "lq-quiet", kept.session().place() + ", " + kept.session().operator()));
        kept.closedBecause().ifPresent(because -> section.add(Pieces.paragraph("lq-strong", "Closed: " + because)));
        if (list.lines().isEmpty()) {
            section.add(new Paragraph("Nobody is in it."));
            return section;
        }
        var names = new NativeTableRow();
        for (var name : List.of("Time", "Patient", "Step", "Leg", "Access, and in the room", "Still to be asked")) {
            var cell = new NativeTableHeaderCell(name);
            cell.getElement().setAttribute("scope", "col");
            names.add(cell);
        }
        var body = new NativeTableBody();
        // Nobody is told of a session that is closed or over.
        var letters = kept.closedBecause().isEmpty() && !kept.date().isBefore(today);
        list.lines().forEach(line -> body.add(row(line, letters)));
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-day-table");
        var head = new NativeTableHeader();
        head.add(names);
        table.add(head, body);
        section.add(table);
        return section;
    }

    private static NativeTableRow row(DayList.Line line, boolean letters) {
        var placed = line.placed();
        var who = new NativeTableHeaderCell();
        who.getElement().setAttribute("scope", "row");
        who.add(Pieces.text("lq-strong", placed.who()), Pieces.text("lq-quiet", " " + placed.reference()));
        if (letters) {
            var letter = new Anchor("sessions/letter/" + placed.id(), "Letter");
            letter.addClassNames("lq-not-printed", "lq-day-letter");
            letter.getElement().setAttribute("aria-label", "Appointment letter to " + placed.who());
            who.add(letter);
        }
        var step = new NativeTableCell("%s, %d min%s"
                .formatted(placed.step().words(), placed.minutes().expected(), placed.told() ? "" : ", not told yet"));
        var access = new NativeTableCell();
        access.add(lines(line.access()), lines(line.room()));
        var questions = new NativeTableCell();
        questions.add(lines(line.questions()));
        var row = new NativeTableRow();
        row.add(
                new NativeTableCell(line.at().toString()),
                who,
                step,
                new NativeTableCell(line.side()),
                access,
                questions);
        return row;
    }

    private static Component lines(List<String> words) {
        var list = new UnorderedList();
        words.forEach(one -> list.add(new ListItem(one)));
        list.setVisible(!words.isEmpty());
        return list;
    }
}
