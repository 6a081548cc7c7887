package limbqueue.timetable.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;
import java.util.function.Function;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.live.Changes;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.OpenStep;
import limbqueue.timetable.Planning;
import limbqueue.timetable.PlanningState;
import limbqueue.timetable.Proposal.Move;
import limbqueue.timetable.Replanned;
import limbqueue.timetable.Replanning;
import limbqueue.timetable.SessionOrder;
import limbqueue.timetable.SessionWeek;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import limbqueue.triage.TriageResult;

/** The sessions of a week with their cases, who has no place yet, and the plan that is proposed. */
@Route("sessions")
@PageTitle("Sessions · LimbQueue")
@Menu(order = 2.7, title = "Sessions")
@RolesAllowed({Role.IS_COORDINATOR, Role.IS_PHYSICIAN, Role.IS_MANAGER})
@StyleSheet("context://ui/coordinator.css")
@StyleSheet("context://ui/preparation.css")
@StyleSheet("context://ui/sessions.css")
@JavaScript("context://ui/sessions.js")
class SessionsView extends Div implements BeforeEnterObserver {

    private static final String WEEK = "week";

    private final Sessions sessions;
    private final Appointments appointments;
    private final Planning planning;
    private final Replanning replanning;
    private final PracticeSettings settings;
    private final CaseActs cases;
    private final SessionActs acts;
    private final Role role;
    private final Span of = new Span();
    private final Div message = new Div();
    private final Div week = new Div();
    private final Div beside = new Div();
    private final Div plan = new Div();
    private final PlacePanel toPlace;
    private LocalDate day;
    private Optional<SessionWeek> shownWeek = Optional.empty();
    private Optional<PlanningState> shownPlan = Optional.empty();

    SessionsView(
            Sessions sessions,
            Appointments appointments,
            Planning planning,
            Replanning replanning,
            SessionOrder order,
            HeldTimes heldTimes,
            PracticeSettings settings,
            CurrentPerson person,
            Changes changes,
            StandingSignIn signIn) {
        this.sessions = sessions;
        this.appointments = appointments;
        this.planning = planning;
        this.replanning = replanning;
        this.settings = settings;
        this.role = person.get().role();
        this.acts = new SessionActs(sessions, heldTimes, this::said);
        this.cases = new CaseActs(
                appointments,
                sessions,
                new CaseOrder(this, order, () -> shownWeek, this::said),
                role,
                this::said,
                this::goOnPlacing);
        this.day = sessions.today();
        Function<OpenStep, String> tier = step -> TierPhrase.of(step.tier(), settings.policy());
        this.toPlace = new PlacePanel(places(), tier, cases::place);
        addClassNames("lq-list-view", "lq-sessions");
        message.addClassName("lq-said");
        message.getElement().setAttribute("role", "status");
        week.addClassName("lq-week-around");
        beside.addClassName("lq-sessions-beside");
        beside.add(toPlace, plan);
        beside.setVisible(role != Role.MANAGER);
        var columns = Pieces.div("lq-sessions-columns", week, beside);
        columns.setClassName("lq-sessions-alone", role == Role.MANAGER);
        add(head(), new Notice(TriageResult.NOTICE), message, columns);
        cases.listen(this);
        KeptUpToDate.whileShown(this, changes, signIn, _ -> show());
    }

    private boolean places() {
        return role == Role.COORDINATOR;
    }

    private Div head() {
        var weeks = Pieces.div(
                "lq-week-turn",
                Pieces.small("Week before", "Week before", () -> turn(day.minusWeeks(1))),
                Pieces.small("This week", "This week", () -> turn(sessions.today())),
                Pieces.small("Next week", "Next week", () -> turn(day.plusWeeks(1))),
                of);
        of.addClassName("lq-week-of");
        var head = Pieces.div("lq-list-head", new H1("Sessions"), weeks);
        if (role != Role.MANAGER) {
            head.add(new Anchor("sessions/short-notice", "Short notice"));
        }
        if (role != Role.PHYSICIAN) {
            head.add(new Anchor("sessions/calendars", "Calendar links"));
        }
        if (places()) {
            head.add(new Button(
                    "Something has changed…",
                    _ -> new SomethingChangedDialog(replanning, sessions.today(), this::showNewPlan).open()));
        }
        if (role != Role.COORDINATOR) {
            head.add(new Anchor("forecast", "Forecast"));
        }
        if (role != Role.PHYSICIAN) {
            head.add(Pieces.primary(
                    "Enter a session",
                    () -> new EnterSessionDialog(sessions, latest(day, sessions.today()), this::said).open()));
        }
        return head;
    }

    private void showNewPlan(Replanned replanned) {
        new NewPlanDialog(replanning, replanned, line -> TierPhrase.of(line.tier(), settings.policy()), this::said)
                .open();
    }

    private static LocalDate latest(LocalDate one, LocalDate other) {
        return one.isAfter(other) ? one : other;
    }

    @Override
    public void beforeEnter(BeforeEnterEvent event) {
        day = event.getLocation()
                .getQueryParameters()
                .getSingleParameter(WEEK)
                .flatMap(SessionsView::date)
                .orElseGet(sessions::today);
        if (isAttached()) {
            show();
        }
    }

    private static Optional<LocalDate> date(String typed) {
        try {
            var date = LocalDate.parse(typed);
            return date.getYear() >= 2000 && date.getYear() < 2200 ? Optional.of(date) : Optional.empty();
        } catch (DateTimeException noDate) {
            return Optional.empty();
        }
    }

    private void turn(LocalDate to) {
        message.setText("");
        // The address says which week it is, so that the way back leads to it.
        UI.getCurrent().navigate(SessionsView.class, QueryParameters.of(WEEK, to.toString()));
    }

    private void show() {
        var now = sessions.week(day);
        of.setText("Week of " + SessionWords.longDay(now.monday()));
        // What has not changed stays as it is, and with it whoever is on it.
        if (!Optional.of(now).equals(shownWeek)) {
            week.removeAll();
            week.add(panel().of(now));
            shownWeek = Optional.of(now);
        }
        if (role != Role.MANAGER) {
            toPlace.show(appointments.toPlace(), sessions.toCome());
            var state = planning.state();
            if (!Optional.of(state).equals(shownPlan)) {
                plan.removeAll();
                plan.add(new PlanPanel(places(), this::startPlan, move -> accept(move, false), this::acceptAll)
                        .of(state));
                shownPlan = Optional.of(state);
            }
        }
    }

    private WeekPanel panel() {
        return new WeekPanel(
                role != Role.PHYSICIAN,
                places(),
                role != Role.MANAGER,
                acts::close,
                acts::openAgain,
                acts::release,
                acts::hold,
                cases::choose);
    }

    private void said(String words) {
        message.setText(words);
        show();
    }

    private void goOnPlacing() {
        toPlace.focusCase();
    }

    private void startPlan() {
        said(planning.start() ? "A plan is being looked for." : "A plan is being looked for already.");
    }

    private void accept(Move move, boolean agreed) {
        var outcome = planning.accept(move, agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            AskFirst.open("Accept it all the same?", concerns, "Accept", () -> accept(move, true));
        } else {
            said(SessionWords.said(
                    outcome, "Accepted: " + move.step().words() + ", " + SessionWords.where(move.to()) + "."));
        }
    }

    private void acceptAll() {
        said(SessionWords.said(planning.acceptAll(), "Done."));
    }
}
