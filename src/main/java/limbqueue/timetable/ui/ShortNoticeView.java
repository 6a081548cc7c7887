package limbqueue.timetable.ui;

import com.vaadin.flow.component.Component;
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
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.util.List;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.live.Changes;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.CountedWords;
import limbqueue.shell.DayWords;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.ShortNotice;
import limbqueue.timetable.ShortNoticeList;
import limbqueue.timetable.ShortNoticeList.Line;
import limbqueue.timetable.TimetableOutcome;
import limbqueue.triage.TriageResult;

/** Who could take a place that is free in the next days: whom to call, and the key that places. */
@Route("sessions/short-notice")
@PageTitle("Short notice · LimbQueue")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/sessions.css")
class ShortNoticeView extends Div {

    private final ShortNotice shortNotice;
    private final Appointments appointments;
    private final PracticeSettings settings;
    private final boolean places;
    private final Div message = new Div();
    private final Div list = new Div();
    private Optional<ShortNoticeList> shown = Optional.empty();

    ShortNoticeView(
            ShortNotice shortNotice,
            Appointments appointments,
            PracticeSettings settings,
            CurrentPerson person,
            Changes changes,
            StandingSignIn signIn) {
        this.shortNotice = shortNotice;
        this.appointments = appointments;
        this.settings = settings;
        this.places = person.get().role() == Role.COORDINATOR;
        addClassNames("lq-list-view", "lq-short-notice");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status");
        add(
                Pieces.div("lq-list-head", new H1("Short notice"), new Anchor("sessions", "The sessions")),
                new Notice(TriageResult.NOTICE),
                message,
                list);
        KeptUpToDate.whileShown(this, changes, signIn, _ -> show());
    }

    private void show() {
        var now = shortNotice.list();
        if (Optional.of(now).equals(shown)) {
            return;
        }
        shown = Optional.of(now);
        list.removeAll();
        list.add(new Paragraph(
                "Places that are free until %s, each for the most urgent patients whose work-up is ready and who have none sooner."
                        .formatted(DayWords.date(now.until()))));
        if (now.lines().isEmpty()) {
            list.add(Pieces.paragraph("lq-nothing", "Nobody whose work-up is ready could take a free place."));
        } else {
            list.add(table(now));
        }
        list.add(Pieces.paragraph(
                "lq-quiet",
                "%d more would find a place, were their work-up ready. %s said that they cannot come at short notice."
                        .formatted(now.notReady(), CountedWords.of(now.cannot(), "has", "have"))));
    }

    private Component table(ShortNoticeList now) {
        var names = new NativeTableRow();
        for (var name : List.of("Patient", "Urgency", "Telephone", "Step", "Has now", "Free place", "When asked")) {
            names.add(heading(name));
        }
        if (places) {
            names.add(heading("Place"));
        }
        var body = new NativeTableBody();
        now.lines().forEach(line -> body.add(row(line)));
        var head = new NativeTableHeader();
        head.add(names);
        var table = new NativeTable();
        table.addClassNames("lq-table", "lq-short-notice-table");
        table.add(head, body);
        return table;
    }

    private static NativeTableHeaderCell heading(String name) {
        var cell = new NativeTableHeaderCell(name);
        cell.getElement().setAttribute("scope", "col");
        return cell;
    }

    private NativeTableRow row(Line line) {
        var who = new NativeTableHeaderCell();
        who.getElement().setAttribute("scope", "row");
        who.add(new Anchor("referrals/" + line.referralId() + "/preparation", line.who()));
        var row = new NativeTableRow();
        row.add(
                who,
                new NativeTableCell("%s, by %s"
                        .formatted(TierPhrase.of(line.tier(), settings.policy()), DayWords.date(line.target()))),
                new NativeTableCell(line.phone().isBlank() ? "not known" : line.phone()),
                new NativeTableCell("%s, %d min".formatted(line.step().words(), line.minutes())),
                new NativeTableCell(line.has()
                        .map(has -> SessionWords.where(has) + (line.told() ? ", told" : ""))
                        .orElse("no place")),
                new NativeTableCell(SessionWords.choice(line.free())),
                answer(line));
        if (places) {
            var cell = new NativeTableCell();
            cell.add(Pieces.small(
                    "Place",
                    "Place %s: %s, %s"
                            .formatted(
                                    line.who(),
                                    line.step().words(),
                                    SessionWords.where(line.free().kept())),
                    () -> place(line, false)));
            row.add(cell);
        }
        return row;
    }

    private NativeTableCell answer(Line line) {
        var cell = new NativeTableCell();
        cell.add(new Paragraph(line.canCome().isPresent() ? "can come" : "not asked yet"));
        if (places) {
            var acts = Pieces.div("lq-row-actions");
            if (line.canCome().isEmpty()) {
                acts.add(Pieces.small(
                        "Can", "%s can come at short notice".formatted(line.who()), () -> answer(line, true)));
            }
            acts.add(Pieces.small(
                    "Cannot", "%s cannot come at short notice".formatted(line.who()), () -> answer(line, false)));
            cell.add(acts);
        }
        return cell;
    }

    private void answer(Line line, boolean canCome) {
        shortNotice.answer(line.referralId(), line.reference(), canCome);
        said("%s %s come at short notice.".formatted(line.who(), canCome ? "can" : "cannot"));
    }

    private void place(Line line, boolean agreed) {
        var outcome = appointments.place(
                line.referralId(),
                line.step(),
                line.version(),
                line.free().kept().id(),
                agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            AskFirst.open("Place it all the same?", concerns, "Place", () -> place(line, true));
            return;
        }
        said(SessionWords.said(
                outcome,
                "Placed: %s, %s, %s."
                        .formatted(
                                line.who(),
                                line.step().words(),
                                SessionWords.where(line.free().kept()))));
    }

    private void said(String words) {
        message.setText(words);
        show();
    }
}
