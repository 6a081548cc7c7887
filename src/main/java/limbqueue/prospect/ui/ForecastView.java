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
import java.util.function.ToIntFunction;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.forecast.HeldBack.Point;
import limbqueue.forecast.RoomSession;
import limbqueue.forecast.Situation;
import limbqueue.forecast.WeeklySession;
import limbqueue.prospect.Basis;
import limbqueue.prospect.Prospects;
import limbqueue.prospect.Simulation;
import limbqueue.prospect.Simulations;
import limbqueue.shell.CountedWords;
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
    private static final String WORKED_OUT = "Worked out from what is stored now.";

    /** Where whoever has asked for the figures goes on. */
    private enum GoOn {
        AT_THE_TOP,
        WITH_ONE_MORE_SESSION,
        WITH_HELD_TIME
    }

    /**
     * What is asked for.
     *
     * @param said what was done before, with a space behind it; may be empty
     */
    private record Asked(Basis.Given given, WeeklySession more, String said, GoOn goOn) {}

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
            case Basis.Given given -> workOut(event.getUI(), new Asked(given, first(given), "", GoOn.AT_THE_TOP));
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

    private void workOut(UI ui, Asked asked) {
        message.setText(asked.said() + "The forecast is being worked out beside this page. It takes a few seconds.");
        Consumer<Optional<Simulation>> then = simulation -> {
            try {
                // What goes wrong in it is told where everything unforeseen is.
                var _ = ui.access(() -> show(ui, asked, simulation));
            } catch (UIDetachedException closed) {
                // Its browser has gone; nobody waits for it any more.
                return;
            }
        };
        simulations.begin(asked.given(), asked.more(), then);
    }

    private void show(UI ui, Asked asked, Optional<Simulation> worked) {
        if (worked.isEmpty()) {
            message.setText(
                    asked.said() + "The forecast could not be worked out. Open the page again; else the log says why.");
            return;
        }
        var simulation = worked.get();
        var given = asked.given();
        message.setText(asked.said() + WORKED_OUT);
        var panel = new MorePanel(
                auditTrail,
                simulation,
                session -> workOut(ui, new Asked(given, session, "", GoOn.WITH_ONE_MORE_SESSION)));
        var held = Pieces.div("lq-forecast-held-around");
        var heldPanel = showHeld(ui, held, simulation);
        shown.removeAll();
        shown.add(
                restsOn(given),
                new WaitsPanel(auditTrail, given, simulation).of(Tier.WITHIN_14_DAYS),
                panel.of(),
                held);
        switch (asked.goOn()) {
            case AT_THE_TOP -> {}
            case WITH_ONE_MORE_SESSION -> panel.focus();
            case WITH_HELD_TIME -> heldPanel.focus();
        }
    }

    private HeldPanel showHeld(UI ui, Div around, Simulation simulation) {
        Consumer<Point> act = point -> choose(ui, around, simulation, point);
        var panel = new HeldPanel(
                auditTrail, simulation.curve(), heldTimes.chosen(), chooses ? Optional.of(act) : Optional.empty());
        around.removeAll();
        around.add(panel.of());
        return panel;
    }

    private void choose(UI ui, Div around, Simulation simulation, Point point) {
        switch (heldTimes.choose(point.held(), point.releaseDays())) {
            case TimetableOutcome.Done(var remarks) -> {
                var said = "Held from now on: %s a week. %s "
                        .formatted(CountedWords.of(point.minutes(), "minute"), String.join(" ", remarks));
                message.setText(said);
                showHeld(ui, around, simulation);
                // The figures above rest on what was held before.
                if (prospects.basis() instanceof Basis.Given now) {
                    workOut(ui, new Asked(now, simulation.more(), said, GoOn.WITH_HELD_TIME));
                }
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
                "%s the procedure room came in %s, from %s to %s; %s now%s."
                        .formatted(
                                CountedWords.of(history.referrals(), "referral that needs", "referrals that need"),
                                CountedWords.of(history.weeks(), "week"),
                                DayWords.date(history.first()),
                                DayWords.date(history.last()),
                                CountedWords.of(situation.queue().size(), "waits", "wait"),
                                given.undecided() == 0
                                        ? ""
                                        : ", %d of them not yet decided on and counted as proposed"
                                                .formatted(given.undecided()))));
        panel.add(Pieces.paragraph(
                "lq-forecast-fact",
                "%s of the procedure room with %s %s open until %s; %s."
                        .formatted(
                                CountedWords.of(situation.sessions().size(), "session"),
                                CountedWords.of(sum(situation, RoomSession::minutes), "minute"),
                                situation.sessions().size() == 1 ? "is" : "are",
                                DayWords.date(situation.from().plusWeeks(situation.weeks())),
                                held(sum(situation, RoomSession::held)))));
        given.remarks().forEach(words -> panel.add(Pieces.paragraph("lq-forecast-fact lq-strong", words)));
        panel.add(Pieces.paragraph(
                "lq-quiet",
                "An estimate for whoever plans, by 1,000 simulated courses: arrivals as they came, without season or trend; most"
                        + " urgent tier first, then target date; 1 of 20 appointments missed, since nothing is recorded of them"
                        + " (common practice, no source). Held time is left to urgent cases until it is released; then 30 % of"
                        + " what is still free of it finds another patient for each day of notice (common practice, no source)."
                        + " Urgent cases go before others in every session, as if nobody had been told of a date yet: what"
                        + " held time costs the others shows here, what it brings the urgent ones shows below. A range holds"
                        + " 8 of 10 courses."));
        return panel;
    }

    private static int sum(Situation situation, ToIntFunction<RoomSession> minutes) {
        return situation.sessions().stream().mapToInt(minutes).sum();
    }

    private static String held(int minutes) {
        return minutes == 0
                ? "nothing of them is held for urgent cases"
                : CountedWords.of(minutes, "of these minutes is held", "of these minutes are held")
                        + " for urgent cases";
    }
}
