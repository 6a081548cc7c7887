package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.Role;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.SessionTime;
import limbqueue.shell.CountedWords;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.HeldTimeStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The practice's sessions: which there are, and who is in them. */
@Service
public class Sessions {

    static final int FURTHEST_DAYS = 366;

    private final SessionStore store;
    private final AppointmentStore appointments;
    private final HeldTimeStore heldTimes;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    Sessions(
            SessionStore store,
            AppointmentStore appointments,
            HeldTimeStore heldTimes,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.appointments = appointments;
        this.heldTimes = heldTimes;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** Today in the practice. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    public LocalDate today() {
        return LocalDate.now(clock);
    }

    /** The sessions of the week of {@code day}. Who sees no patients gets their references alone. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public SessionWeek week(LocalDate day) {
        var monday = day.with(TemporalAdjusters.previousOrSame(DayOfWeek.MONDAY));
        return new SessionWeek(monday, today(), filled(store.between(monday, monday.plusDays(6))));
    }

    /** Open sessions in which somebody can still be given a place, from today on, by time. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public List<FilledSession> toCome() {
        return filled(store.between(today(), today().plusDays(FURTHEST_DAYS))).stream()
                .filter(one -> !one.kept().session().closed())
                .toList();
    }

    private List<FilledSession> filled(List<KeptSession> sessions) {
        var names = currentPerson.get().role() != Role.MANAGER;
        var patients = appointments
                .inSessions(sessions.stream().map(KeptSession::id).toList())
                .stream()
                .map(one -> names ? one : one.withoutName())
                .collect(Collectors.groupingBy(Placed::session));
        return sessions.stream()
                .map(kept -> new FilledSession(kept, patients.getOrDefault(kept.id(), List.of()), clock.getZone()))
                .toList();
    }

    /**
     * Enters a session, or one for every week: all of them or none.
     *
     * @param weeklyUntil the last day on which there may be one; empty for a single session
     */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public TimetableOutcome enter(EnteredSession entered, Optional<LocalDate> weeklyUntil) {
        if (entered.place().isEmpty() || entered.operator().isEmpty()) {
            return new Refused("Say where it is and who works in it.");
        }
        if (entered.place().length() > 80 || entered.operator().length() > 80) {
            return new Refused("Place and operator are at most 80 characters long each.");
        }
        if (entered.date().isBefore(today())) {
            return new Refused("A session is entered for today or later.");
        }
        var until = weeklyUntil.orElse(entered.date());
        if (until.isBefore(entered.date())) {
            return new Refused("It is repeated until %s, before the first one on %s. Change one of them."
                    .formatted(until, entered.date()));
        }
        if (until.isAfter(today().plusDays(FURTHEST_DAYS))) {
            return new Refused("Sessions are entered for a year ahead at most.");
        }
        store.takeTurns();
        var sessions = new ArrayList<Session>();
        var remarks = new ArrayList<String>();
        for (var day = entered.date(); !day.isAfter(until); day = day.plusWeeks(1)) {
            switch (SessionTime.of(day, entered.start(), entered.end(), clock.getZone())) {
                case SessionTime.Impossible(var _, var text) -> {
                    return new Refused(text);
                }
                case SessionTime.Possible possible -> {
                    var session = session(entered.on(day), possible);
                    var most = session.minutes();
                    if (entered.held().filter(held -> held.minutes() > most).isPresent()) {
                        return new Refused(
                                "The session has %s. Hold at most those.".formatted(CountedWords.of(most, "minute")));
                    }
                    var clash = clash(session);
                    if (clash.isPresent()) {
                        return new Refused(clash.get());
                    }
                    sessions.add(session.holding(entered.held().orElseGet(() -> byChoice(session))));
                    possible.remark().ifPresent(remarks::add);
                }
            }
        }
        sessions.forEach(session -> store.add(session, currentPerson.get(), now()));
        auditTrail.record(
                sessions.size() == 1 ? "entered the session" : "entered %d weekly sessions".formatted(sessions.size()),
                subject(sessions.getFirst()));
        return new Done(remarks);
    }

    private HeldTime byChoice(Session session) {
        return heldTimes
                .latest()
                .filter(_ -> session.kind() == SessionKind.PROCEDURE_ROOM)
                .map(choice -> choice.ofNew(session, store.between(session.date(), session.date())))
                .orElse(HeldTime.NONE);
    }

    private static Session session(EnteredSession entered, SessionTime.Possible time) {
        return new Session(
                "new",
                entered.kind(),
                time.start(),
                time.end(),
                time.minutes(),
                entered.place(),
                entered.operator(),
                entered.capabilities(),
                false);
    }

    private Optional<String> clash(Session session) {
        return store.clashing(session.start(), session.end(), session.place(), session.operator()).stream()
                .findFirst()
                .map(other -> ("%s is taken then: %s, with %s. Change the time, or close the other one. Nothing was"
                                + " entered.")
                        .formatted(
                                other.session().place().equalsIgnoreCase(session.place())
                                        ? session.place()
                                        : session.operator(),
                                other.words(),
                                other.session().operator()));
    }

    /**
     * Closes a session. Whoever is in it stays there, for a person or a plan to move.
     *
     * @param knowing whether the person knows who is in it; else a session with patients is not closed, and they are
     *     named
     */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public TimetableOutcome close(long id, int version, String because, boolean knowing) {
        if (because.isBlank()) {
            return new Refused("Say why it is closed.");
        }
        if (because.length() > 200) {
            return new Refused("Say why it is closed in at most 200 characters.");
        }
        var found = store.findLocked(id);
        if (found.isEmpty()
                || found.get().version() != version
                || found.get().closedBecause().isPresent()) {
            return new Overtaken();
        }
        if (found.get().date().isBefore(today())) {
            return new Refused("It is over. A session is closed on its day or before.");
        }
        var patients = filled(List.of(found.get())).getFirst().patients();
        if (!patients.isEmpty() && !knowing) {
            return new AsksFirst(patients.stream()
                    .map(one -> "%s, %s%s, needs another place."
                            .formatted(one.who(), one.step().words(), one.told() ? ", who has been told of it" : ""))
                    .toList());
        }
        store.close(id, version, Optional.of(because.strip()), currentPerson.get(), now());
        auditTrail.record("closed the session", subject(found.get().session()));
        return patients.isEmpty()
                ? Done.plainly()
                : new Done(List.of(CountedWords.of(patients.size(), "patient in it needs", "patients in it need")
                        + " another place."));
    }

    /** Opens a closed session again, if its place and its operator are still free. */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public TimetableOutcome open(long id, int version) {
        store.takeTurns();
        var found = store.findLocked(id);
        if (found.isEmpty()
                || found.get().version() != version
                || found.get().closedBecause().isEmpty()) {
            return new Overtaken();
        }
        var clash = clash(found.get().session());
        if (clash.isPresent()) {
            return new Refused(clash.get());
        }
        store.close(id, version, Optional.empty(), currentPerson.get(), now());
        auditTrail.record("opened the session again", subject(found.get().session()));
        return Done.plainly();
    }

    /** Gives back the minutes that emergencies take of a session. */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public TimetableOutcome release(long id, int version) {
        var found = store.findLocked(id);
        if (found.isEmpty() || !store.giveToEmergencies(id, version, 0, currentPerson.get(), now())) {
            return new Overtaken();
        }
        auditTrail.record(
                "gave back the minutes of emergencies", subject(found.get().session()));
        return Done.plainly();
    }

    static String subject(Session session) {
        return "%s, %s, %s"
                .formatted(session.kind().words(), session.start().toString().replace('T', ' '), session.place());
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
