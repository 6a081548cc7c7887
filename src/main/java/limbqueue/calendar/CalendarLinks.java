package limbqueue.calendar;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_MANAGER;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.access.NotPossibleException;
import limbqueue.calendar.CalendarOf.Kind;
import limbqueue.calendar.jdbc.CalendarLinkStore;
import limbqueue.timetable.SessionCalendar;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Links to calendars, as they are made and revoked. */
@Service
@RolesAllowed({IS_COORDINATOR, IS_MANAGER})
public class CalendarLinks {

    private final CalendarLinkStore store;
    private final SessionCalendar sessions;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    CalendarLinks(
            CalendarLinkStore store,
            SessionCalendar sessions,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** All links: those that can be used first, then the revoked ones. */
    @Transactional(readOnly = true)
    public List<CalendarLink> all() {
        return store.all();
    }

    /** What there can be a calendar of: rooms, then operators, by name. */
    @Transactional(readOnly = true)
    public List<CalendarOf> choices() {
        return Stream.concat(
                        sessions.places().stream().map(name -> new CalendarOf(Kind.PLACE, name)),
                        sessions.operators().stream().map(name -> new CalendarOf(Kind.OPERATOR, name)))
                .toList();
    }

    /**
     * Makes a link.
     *
     * @return the path of the calendar, without a slash in front: it holds the secret, which is kept nowhere
     * @throws NotPossibleException if no session has this room or operator
     */
    @Transactional
    public String make(CalendarOf of) {
        if (!choices().contains(of)) {
            throw new NotPossibleException("No session has the %s any more. Choose another one.".formatted(of.words()));
        }
        var secret = LinkSecret.make();
        store.add(of, secret.digest(), currentPerson.get(), now());
        auditTrail.record("made a link to the calendar of", of.words());
        return secret.path();
    }

    /**
     * Revokes a link, for good: whoever has it reads nothing by it any more.
     *
     * @throws NotPossibleException if somebody else has revoked it meanwhile, or there is none
     */
    @Transactional
    public void revoke(long id) {
        var link = store.find(id).orElseThrow(() -> new NotPossibleException("There is no such link."));
        if (!store.revoke(id, currentPerson.get(), now())) {
            throw new NotPossibleException("Somebody else has revoked this link already.");
        }
        auditTrail.record("revoked a link to the calendar of", link.of().words());
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
