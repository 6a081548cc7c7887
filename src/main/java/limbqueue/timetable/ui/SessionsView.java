package limbqueue.timetable.ui;

import com.vaadin.flow.component.UI;
import com.vaadin.flow.component.button.Button;
import com.vaadin.flow.component.combobox.ComboBox;
import com.vaadin.flow.component.dependency.JavaScript;
import com.vaadin.flow.component.dependency.StyleSheet;
import com.vaadin.flow.component.dialog.Dialog;
import com.vaadin.flow.component.html.Anchor;
import com.vaadin.flow.component.html.Div;
import com.vaadin.flow.component.html.H1;
import com.vaadin.flow.component.html.Paragraph;
import com.vaadin.flow.component.html.Span;
import com.vaadin.flow.component.textfield.TextField;
import com.vaadin.flow.router.BeforeEnterEvent;
import com.vaadin.flow.router.BeforeEnterObserver;
import com.vaadin.flow.router.Menu;
import com.vaadin.flow.router.PageTitle;
import com.vaadin.flow.router.QueryParameters;
import com.vaadin.flow.router.Route;
import jakarta.annotation.security.RolesAllowed;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Function;
import java.util.regex.Pattern;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.access.StandingSignIn;
import limbqueue.booking.StepKind;
import limbqueue.live.Changes;
import limbqueue.practice.PracticeSettings;
import limbqueue.referral.TierPhrase;
import limbqueue.shell.AskingDialog;
import limbqueue.shell.KeptUpToDate;
import limbqueue.shell.Notice;
import limbqueue.shell.Pieces;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.OpenStep;
import limbqueue.timetable.Placed;
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
    private static final Pattern DRAGGED = Pattern.compile("(\\d{1,18})/([A-Z_]{1,30})/(\\d{1,9})");
    private static final Pattern NUMBER = Pattern.compile("\\d{1,18}");

    private final Sessions sessions;
    private final Appointments appointments;
    private final Planning planning;
    private final Replanning replanning;
    private final PracticeSettings settings;
    private final CaseOrder order;
    private final HeldTimes heldTimes;
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
        this.order = new CaseOrder(this, order, () -> shownWeek, this::said);
        this.heldTimes = heldTimes;
        this.role = person.get().role();
        this.day = sessions.today();
        Function<OpenStep, String> tier = step -> TierPhrase.of(step.tier(), settings.policy());
        this.toPlace = new PlacePanel(
                places(),
                tier,
                (step, into) -> place(
                        step.referralId(),
                        step.step(),
                        step.version(),
                        into.kept().id(),
                        false));
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
        getElement()
                .addEventListener(
                        "lq-place",
                        event -> dropped(
                                event.getEventData().get("event.detail.what").asString(),
                                event.getEventData().get("event.detail.session").asString()))
                .addEventData("event.detail.what")
                .addEventData("event.detail.session");
        this.order.listen();
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
                this::close,
                this::openAgain,
                this::release,
                this::hold,
                this::choose);
    }

    private void said(String words) {
        message.setText(words);
        show();
    }

    private void dropped(String what, String session) {
        var dragged = DRAGGED.matcher(what);
        if (dragged.matches() && NUMBER.matcher(session).matches() && places()) {
            for (var step : StepKind.values()) {
                if (step.name().equals(dragged.group(2))) {
                    place(
                            Long.parseLong(dragged.group(1)),
                            step,
                            Integer.parseInt(dragged.group(3)),
                            Long.parseLong(session),
                            false);
                }
            }
        }
    }

    private void place(long referral, StepKind step, int version, long into, boolean agreed) {
        var outcome = appointments.place(referral, step, version, into, agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            ask("Place it all the same?", concerns, "Place", () -> place(referral, step, version, into, true));
            return;
        }
        said(SessionWords.said(outcome, "Placed: " + step.words() + "."));
        if (outcome instanceof TimetableOutcome.Done) {
            toPlace.focusCase();
        }
    }

    private static void ask(String title, List<String> concerns, String deed, Runnable yes) {
        new AskingDialog(
                        title,
                        concerns.stream().map(concern -> new Paragraph(concern)).toList(),
                        deed,
                        () -> {
                            yes.run();
                            return Optional.empty();
                        })
                .open();
    }

    private void close(FilledSession filled) {
        var because = new TextField("Why it is closed");
        because.setMaxLength(200);
        because.setRequiredIndicatorVisible(true);
        because.setWidthFull();
        var knowing = new AtomicBoolean();
        new AskingDialog("Close: " + SessionWords.where(filled.kept()), List.of(because), "Close the session", () -> {
                    var outcome = sessions.close(
                            filled.kept().id(), filled.kept().version(), because.getValue(), knowing.getAndSet(false));
                    return switch (outcome) {
                        case TimetableOutcome.Done _ -> {
                            said(SessionWords.said(outcome, "Closed."));
                            yield Optional.empty();
                        }
                        case TimetableOutcome.AsksFirst(var who) -> {
                            knowing.set(true);
                            yield Optional.of(String.join(" ", who) + " Press again to close it all the same.");
                        }
                        case TimetableOutcome.Refused _, TimetableOutcome.Overtaken _ ->
                            Optional.of(SessionWords.said(outcome, ""));
                    };
                })
                .open();
    }

    private void hold(FilledSession filled) {
        new HoldTimeDialog(heldTimes, filled, this::said).open();
    }

    private void openAgain(FilledSession filled) {
        said(SessionWords.said(sessions.open(filled.kept().id(), filled.kept().version()), "Open again."));
    }

    private void release(FilledSession filled) {
        said(SessionWords.said(
                sessions.release(filled.kept().id(), filled.kept().version()), "The minutes are given back."));
    }

    /** What can be done with a case in a session. */
    private void choose(FilledSession filled, Placed placed) {
        var dialog = new Dialog();
        dialog.setHeaderTitle("%s, %s".formatted(placed.who(), placed.step().words()));
        dialog.setWidth("440px");
        var facts = Pieces.div(
                "lq-stack",
                new Paragraph(SessionWords.where(filled.kept())),
                new Paragraph("Expected at %s for %d minutes; nine of ten take no longer than %d."
                        .formatted(
                                filled.startsFor(placed).toLocalTime(),
                                placed.minutes().expected(),
                                Math.round(placed.minutes().ninety()))),
                new Paragraph(
                        placed.told()
                                ? "The patient has been told of it."
                                : "The patient has not been told of it yet."),
                Pieces.paragraph(
                        "lq-quiet",
                        "%s by %s."
                                .formatted(
                                        placed.planned() ? "Accepted from the plan" : "Placed by hand",
                                        placed.author())));
        if (role != Role.MANAGER) {
            facts.add(
                    new Anchor("referrals/" + placed.referralId() + "/preparation", "Open the case"),
                    new Anchor("sessions/letter/" + placed.id(), "Letter to the patient"));
        }
        dialog.add(facts);
        if (places()) {
            facts.add(order.buttons(placed, dialog::close));
            if (!placed.told()) {
                dialog.getFooter().add(new Button("The patient has been told", _ -> {
                    dialog.close();
                    said(SessionWords.said(
                            appointments.told(placed.id(), placed.version()), placed.who() + " has been told."));
                }));
            }
            dialog.getFooter()
                    .add(
                            new Button("Move", _ -> {
                                dialog.close();
                                move(filled, placed);
                            }),
                            new Button("Take out", _ -> {
                                dialog.close();
                                takeOut(placed, false);
                            }));
        }
        dialog.getFooter().add(new Button("Leave it", _ -> dialog.close()));
        dialog.open();
    }

    private void move(FilledSession filled, Placed placed) {
        var into = new ComboBox<FilledSession>("To which session");
        into.setItems(sessions.toCome().stream()
                .filter(one -> one.kept().session().kind() == placed.step().session()
                        && one.kept().id() != filled.kept().id())
                .toList());
        into.setItemLabelGenerator(SessionWords::choice);
        into.setWidthFull();
        new AskingDialog(
                        "Move: %s, %s".formatted(placed.who(), placed.step().words()),
                        List.of(into),
                        "Move",
                        () -> into.getOptionalValue()
                                .map(chosen -> {
                                    place(
                                            placed.referralId(),
                                            placed.step(),
                                            placed.version(),
                                            chosen.kept().id(),
                                            false);
                                    return Optional.<String>empty();
                                })
                                .orElse(Optional.of("Choose a session.")))
                .open();
    }

    private void takeOut(Placed placed, boolean agreed) {
        var outcome = appointments.takeOut(placed.id(), placed.version(), agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            ask("Take it out all the same?", concerns, "Take out", () -> takeOut(placed, true));
        } else {
            said(SessionWords.said(
                    outcome,
                    "%s, %s: taken out. Short notice says who could take the place."
                            .formatted(placed.who(), placed.step().words())));
        }
    }

    private void startPlan() {
        said(planning.start() ? "A plan is being looked for." : "A plan is being looked for already.");
    }

    private void accept(Move move, boolean agreed) {
        var outcome = planning.accept(move, agreed);
        if (outcome instanceof TimetableOutcome.AsksFirst(var concerns)) {
            ask("Accept it all the same?", concerns, "Accept", () -> accept(move, true));
        } else {
            said(SessionWords.said(
                    outcome, "Accepted: " + move.step().words() + ", " + SessionWords.where(move.to()) + "."));
        }
    }

    private void acceptAll() {
        said(SessionWords.said(planning.acceptAll(), "Done."));
    }
}
