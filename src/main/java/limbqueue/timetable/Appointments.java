package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.StepKind;
import limbqueue.preparation.Preparation;
import limbqueue.timetable.Paths.QueuedCase;
import limbqueue.timetable.Placing.Wanted;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who is in which session, placed by hand. */
@Service
public class Appointments {

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final Paths paths;
    private final Placing placing;
    private final ExpectedTimes times;
    private final Preparation preparation;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    Appointments(
            AppointmentStore store,
            SessionStore sessions,
            Paths paths,
            Placing placing,
            ExpectedTimes times,
            Preparation preparation,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            ApplicationEventPublisher events,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.paths = paths;
        this.placing = placing;
        this.times = times;
        this.preparation = preparation;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.events = events;
        this.clock = clock;
    }

    /** Steps of approved referrals that have no place in an open session, the most urgent referral first. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<OpenStep> toPlace() {
        var queue = paths.queue();
        var ids = queue.stream().map(QueuedCase::referralId).toList();
        var placed = store.of(ids);
        var open = sessions.these(placed.stream().map(Placed::session).toList()).stream()
                .filter(session -> session.closedBecause().isEmpty())
                .map(KeptSession::id)
                .collect(Collectors.toSet());
        var settled = placed.stream()
                .filter(one -> open.contains(one.session()))
                .collect(Collectors.groupingBy(
                        Placed::referralId, Collectors.mapping(Placed::step, Collectors.toSet())));
        var versions = store.versions(ids);
        return queue.stream()
                .flatMap(one -> openSteps(
                        one,
                        settled.getOrDefault(one.referralId(), Set.of()),
                        versions.getOrDefault(one.referralId(), Map.of())))
                .sorted(Comparator.comparing(OpenStep::tier)
                        .thenComparing(OpenStep::target)
                        .thenComparing(OpenStep::referralId)
                        .thenComparing(OpenStep::step))
                .toList();
    }

    private static Stream<OpenStep> openSteps(
            QueuedCase queued, Set<StepKind> settled, Map<StepKind, Integer> versions) {
        return queued.waiting().stream()
                .flatMap(waiting -> waiting.steps().stream()
                        .filter(step -> !settled.contains(step.kind()))
                        .map(step -> new OpenStep(
                                queued.referralId(),
                                queued.reference(),
                                queued.patient(),
                                waiting.tier(),
                                waiting.target(),
                                step.kind(),
                                versions.getOrDefault(step.kind(), 0),
                                step.minutes().expected())));
    }

    /**
     * Places a step of a referral at the end of a session, from wherever it is.
     *
     * @param version of the appointment that was looked at, 0 for none
     * @param agreed whether a person has said yes to what was asked first
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public TimetableOutcome place(long referralId, StepKind step, int version, long session, boolean agreed) {
        return placing.place(
                new Wanted(referralId, step, version, session, false),
                agreed ? EnumSet.allOf(Concern.Kind.class) : EnumSet.noneOf(Concern.Kind.class));
    }

    /**
     * Takes an appointment out of its session. Those behind it are expected earlier then; whoever of them has been told of a time
     * counts as not told.
     *
     * @param agreed whether a person has said yes to what was asked first
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public TimetableOutcome takeOut(long id, int version, boolean agreed) {
        var found = found(id, version);
        if (found.isEmpty()) {
            return new Overtaken();
        }
        var placed = found.get().placed();
        if (placed.step() == StepKind.PROCEDURE
                && preparation.get(placed.referralId()).booking().isPresent()) {
            return new Refused(
                    "The patient has been told of a date for the procedure, and it is prepared for it. Move it to"
                            + " another session.");
        }
        var session = found.get().session();
        var changes = times.changes(session, session.without(placed));
        var questions = new ArrayList<String>();
        if (placed.told()) {
            questions.add("%s has been told of it and must be told anew.".formatted(placed.who()));
        }
        questions.addAll(ExpectedTimes.questions(changes));
        if (!questions.isEmpty() && !agreed) {
            return new AsksFirst(questions);
        }
        if (!store.takeOut(id, version, currentPerson.get(), now())) {
            return new Overtaken();
        }
        auditTrail.record("took out of its session: " + placed.step().words(), placed.reference());
        events.publishEvent(new AppointmentTakenOut(
                placed.referralId(), placed.step(), session.kept().session().place()));
        times.follow(changes);
        return new Done(ExpectedTimes.remarks(changes));
    }

    /** Notes that the patient has been told; a procedure is booked with that, for its preparation. */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public TimetableOutcome told(long id, int version) {
        var found = found(id, version);
        if (found.isEmpty()) {
            return new Overtaken();
        }
        var placed = found.get().placed();
        var session = found.get().session().kept();
        if (session.closedBecause().isPresent()) {
            return new Refused("It is closed: " + session.closedBecause().get() + " Find another place first.");
        }
        var starts = found.get().session().startsFor(placed);
        if (placed.step() == StepKind.PROCEDURE) {
            var not = times.book(placed.referralId(), starts, session.session().place(), false);
            if (not.isPresent()) {
                return not.get();
            }
        }
        if (!store.told(id, version, currentPerson.get(), now())) {
            throw new IllegalStateException("an appointment changed under its lock");
        }
        auditTrail.record("told the patient of: " + placed.step().words(), placed.reference());
        if (!placed.told()) {
            events.publishEvent(new AppointmentTold(
                    placed.referralId(),
                    placed.step(),
                    starts,
                    session.session().place()));
        }
        return Done.plainly();
    }

    /** An appointment in its session, both as they stay until the end of the transaction. */
    private record Found(Placed placed, FilledSession session) {}

    private Optional<Found> found(long id, int version) {
        return store.find(id)
                .flatMap(placed -> {
                    store.takeTurns(placed.referralId());
                    return store.find(id);
                })
                .flatMap(placed -> sessions.findLocked(placed.session()))
                .map(session -> new FilledSession(session, store.inSessions(List.of(session.id())), clock.getZone()))
                .flatMap(session -> session.patients().stream()
                        .filter(placed -> placed.id() == id && placed.version() == version)
                        .findFirst()
                        .map(placed -> new Found(placed, session)));
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
