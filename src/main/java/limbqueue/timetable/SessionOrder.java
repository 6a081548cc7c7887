package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.StepKind;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.interceptor.TransactionAspectSupport;

/** Who comes before whom within a session. */
@Service
public class SessionOrder {

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final ExpectedTimes times;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    SessionOrder(
            AppointmentStore store,
            SessionStore sessions,
            ExpectedTimes times,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.times = times;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /**
     * Has an appointment change places with the one before it, or with the one behind it. All others keep their time. Whoever has
     * been told of the old time counts as not told; a procedure that has a date keeps one.
     *
     * @param version of the appointment that was looked at
     * @param earlier whether it goes to the front; else it goes to the back
     * @param agreed whether a person has said yes to what was asked first
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public TimetableOutcome move(long id, int version, boolean earlier, boolean agreed) {
        var session = store.find(id).flatMap(placed -> sessions.findLocked(placed.session()));
        if (session.isEmpty()) {
            return new Overtaken();
        }
        // Read after the lock: as long as it is held, nobody comes into the session or changes its order.
        var before = new FilledSession(
                session.get(), store.inSessions(List.of(session.get().id())), clock.getZone());
        var found = before.patients().stream()
                .filter(one -> one.id() == id && one.version() == version)
                .findFirst();
        if (found.isEmpty()) {
            return new Overtaken();
        }
        var placed = found.get();
        var other = neighbour(before, placed, earlier);
        var refusal = refusal(session.get());
        if (refusal.isPresent()) {
            return refusal.get();
        }
        return other.map(beside -> change(before, placed, beside, earlier, agreed))
                .orElseGet(() -> new Refused(
                        earlier
                                ? "%s is the first one already.".formatted(placed.who())
                                : "%s is the last one already.".formatted(placed.who())));
    }

    private Optional<TimetableOutcome> refusal(KeptSession session) {
        if (session.closedBecause().isPresent()) {
            return Optional.of(
                    new Refused("It is closed: " + session.closedBecause().get()));
        }
        return session.date().isBefore(LocalDate.now(clock))
                ? Optional.of(new Refused("The session is over. Its order stays as it was."))
                : Optional.empty();
    }

    private static Optional<Placed> neighbour(FilledSession session, Placed placed, boolean earlier) {
        var at = session.patients().indexOf(placed) + (earlier ? -1 : 1);
        return at >= 0 && at < session.patients().size()
                ? Optional.of(session.patients().get(at))
                : Optional.empty();
    }

    private TimetableOutcome change(
            FilledSession before, Placed placed, Placed other, boolean earlier, boolean agreed) {
        var order = new ArrayList<>(before.patients());
        Collections.swap(order, order.indexOf(placed), order.indexOf(other));
        var after = new FilledSession(before.kept(), order, before.zone());
        var changes = times.changes(before, after);
        var told = ExpectedTimes.questions(changes);
        if (!told.isEmpty() && !agreed) {
            return new AsksFirst(told);
        }
        for (var one : List.of(placed, other)) {
            if (one.step() == StepKind.PROCEDURE) {
                var not = times.book(
                        one.referralId(),
                        after.startsFor(one),
                        before.kept().session().place(),
                        true);
                if (not.isPresent()) {
                    return undone(not.get());
                }
            }
        }
        if (!store.swap(placed, other, currentPerson.get(), clock.instant().truncatedTo(ChronoUnit.MICROS))) {
            return undone(new Overtaken());
        }
        times.publish(changes);
        auditTrail.record(
                "moved %s in its session: %s"
                        .formatted(earlier ? "earlier" : "later", placed.step().words()),
                placed.reference());
        return new Done(Stream.of(placed, other)
                .map(one -> "%s is expected at %s now."
                        .formatted(one.who(), after.startsFor(one).toLocalTime()))
                .toList());
    }

    /** Both change places or neither does, in their bookings too. */
    private static TimetableOutcome undone(TimetableOutcome outcome) {
        TransactionAspectSupport.currentTransactionStatus().setRollbackOnly();
        return outcome;
    }
}
