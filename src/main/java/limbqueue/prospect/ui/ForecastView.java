package limbqueue.prospect.ui;

import com.vaadin.flow.component.AttachEvent;
import com.vaadin.flow.component.Component;
import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.UIDetachedException;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.ListItem;
import com.vaadin.flow.component.html.Section;
import com.vaadin.flow.component.html.UnorderedList;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.DayOfWeek;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.forecast.HeldBack.Point;
import limbqueue.forecast.RoomSession;
import limbqueue.forecast.WeeklySession;
import limbqueue.prospect.Basis;
import limbqueue.prospect.Prospects;
import limbqueue.prospect.Simulation;
import limbqueue.prospect.Simulations;
import limbqueue.shell.DayWords;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.TimetableOutcome;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;

/** What is to be expected of the procedure room in 12 weeks, one more session tried, and time held for urgent cases. */
@Route("forecast")
@PageTitle("Forecast · LimbQueue")
@RolesAllowed({Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/governance.css")
@StyleSheet("context://ui/forecast.css")
class ForecastView extends Section {

    private static final int MINUTES_OF_A_SESSION = 240;

    private final Prospects prospects;
    private final Simulations simulations;
    private final HeldTimes heldTimes;
    private final AuditTrail auditTrail;
    private final boolean chooses;
    private final Div message = new Div();
    private final Div shown = Pieces.div("lq-governance-report");

    ForecastView(
            Prospects prospects,
            Simulations simulations,
            HeldTimes heldTimes,
            AuditTrail auditTrail,
            CurrentPerson person) {
        this.prospects = prospects;
        this.simulations = simulations;
        this.heldTimes = heldTimes;
        this.auditTrail = auditTrail;
        this.chooses = person.get().role() == Role.MANAGER;
        addClassNames("lq-page", "lq-governance", "lq-forecast");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status");
        add(
                Pieces.div("lq-page-head", new H1("Forecast"), new Anchor("sessions", "Sessions")),
                new Notice(TriageResult.NOTICE),
                message,
                shown);
    }

    @Override
    protected void onAttach(AttachEvent event) {
        super.onAttach(event);
        switch (prospects.basis()) {
            case Basis.Lacking(var why) -> {
                shown.removeAll();
                shown.add(lacking(why));
            }
            case Basis.Given given -> workOut(event.getUI(), given, first(given));
        }
    }

    private static Component lacking(List<String> why) {
        var list = new UnorderedList();
        why.forEach(words -> list.add(new ListItem(words)));
        return Pieces.panel("lq-forecast-lacking", "No forecast yet", list);
    }

    /** As long as the usual ones, on a day that has none. */
    private static WeeklySession first(Basis.Given given) {
        var usual = given.usualWeek();
        var taken = usual.stream().map(WeeklySession::day).toList();
        return new WeeklySession(
                Arrays.stream(DayOfWeek.values())
                        .filter(day -> !taken.contains(day))
                        .findFirst()
                        .orElse(DayOfWeek.MONDAY),
                usual.stream().mapToInt(WeeklySession::minutes).min().orElse(MINUTES_OF_A_SESSION));
    }

    private void workOut(UI ui, Basis.Given given, WeeklySession more) {
        message.setText("The forecast is being worked out beside this page. It takes a few seconds.");
        Consumer<Optional<Simulation>> then = simulation -> {
            try {
                // What goes wrong in it is told where everything unforeseen is.
                var _ = ui.access(() -> show(ui, given, simulation));
            } catch (UIDetachedException closed) {
                // Its browser has gone; nobody waits for it any more.
                return;
            }
        };
        simulations.begin(given, more, then);
    }

    private void show(UI ui, Basis.Given given, Optional<Simulation> worked) {
        if (worked.isEmpty()) {
            message.setText("The forecast could not be worked out. Open the page again; else the log says why.");
            return;
        }
        var simulation = worked.get();
        message.setText("Worked out from what is stored now.");
        var again = shown.getComponentCount() > 0;
        var panel = new MorePanel(auditTrail, simulation, session -> workOut(ui, given, session));
        shown.removeAll();
        shown.add(
                restsOn(given),
                new WaitsPanel(auditTrail, given, simulation).of(Tier.WITHIN_14_DAYS),
                panel.of(),
                held(simulation));
        if (again) {
            panel.focus();
        }
    }

    private Div held(Simulation simulation) {
        var around = Pieces.div("lq-forecast-held-around");
        showHeld(around, simulation);
        return around;
    }

    private void showHeld(Div around, Simulation simulation) {
        Consumer<Point> act = point -> choose(around, simulation, point);
        around.removeAll();
        around.add(new HeldPanel(
                        auditTrail,
                        simulation.curve(),
                        heldTimes.chosen(),
                        chooses ? Optional.of(act) : Optional.empty())
                .of());
    }

    private void choose(Div around, Simulation simulation, Point point) {
        switch (heldTimes.choose(point.held(), point.releaseDays())) {
            case TimetableOutcome.Done(var remarks) -> {
                message.setText("Held from now on: %d minutes a week. %s"
                        .formatted(point.minutes(), String.join(" ", remarks)));
                showHeld(around, simulation);
            }
            case TimetableOutcome.Refused(var why) -> message.setText(why);
            case TimetableOutcome.Overtaken _, TimetableOutcome.AsksFirst _ ->
                message.setText("Somebody else changed it at the same time. Open the page again; nothing was changed.");
        }
    }

    private static Component restsOn(Basis.Given given) {
        var situation = given.situation();
        var history = given.history();
        var panel = Pieces.panel("lq-forecast-basis", "What it rests on");
        panel.add(Pieces.paragraph(
                "lq-forecast-fact",
                "%d referrals that need the procedure room came in %d weeks, from %s to %s; %d wait now%s."
                        .formatted(
                                history.referrals(),
                                history.weeks(),
                                DayWords.date(history.first()),
                                DayWords.date(history.last()),
                                situation.queue().size(),
                                given.undecided() == 0
                                        ? ""
                                        : ", %d of them not yet decided on and counted as proposed"
                                                .formatted(given.undecided()))));
        panel.add(Pieces.paragraph(
                "lq-forecast-fact",
                "%d sessions of the procedure room with %d minutes are open until %s."
                        .formatted(
                                situation.sessions().size(),
                                situation.sessions().stream()
                                        .mapToInt(RoomSession::minutes)
                                        .sum(),
                                DayWords.date(situation.from().plusWeeks(situation.weeks())))));
        given.remarks().forEach(words -> panel.add(Pieces.paragraph("lq-forecast-fact lq-strong", words)));
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "An estimate for whoever plans, by 1,000 simulated courses: arrivals as they came, without season or trend; most"
                        + " urgent tier first, then target date; 1 of 20 appointments missed, since nothing is recorded of them"
                        + " (common practice, no source); held time left aside. A range holds 8 of 10 courses."));
        return panel;
    }
}
