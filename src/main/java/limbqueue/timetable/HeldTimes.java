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
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.HeldTime;
import limbqueue.booking.SessionKind;
import limbqueue.shell.CountedWords;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.HeldTimeStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/**
 * Time that is kept for urgent cases: of one session, of those like it, or of every week of the procedure room. Every plan
 * obeys it.
 */
@Service
public class HeldTimes {

    private static final int MINUTES_OF_A_DAY = 1440;

    private final HeldTimeStore store;
    private final SessionStore sessions;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    HeldTimes(
            HeldTimeStore store,
            SessionStore sessions,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** What was chosen last for every week; empty while nobody has. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public Optional<HeldTimeChoice> chosen() {
        return store.latest();
    }

    /**
     * Holds so much of a session.
     *
     * @param version of the session that was looked at
     * @param minutes 0 or more
     * @param releaseDays 0 or more
     * @param following whether later open sessions like it hold the same: of its kind and its place, on its day of the week,
     *     from the same time on
     */
    @RolesAllowed({IS_COORDINATOR, IS_MANAGER})
    @Transactional
    public TimetableOutcome hold(long id, int version, int minutes, int releaseDays, boolean following) {
        if (minutes < 0 || releaseDays < 0 || releaseDays > HeldTime.MOST_RELEASE_DAYS) {
            return new Refused("Minutes are 0 or more, and days before the session 0 to %d."
                    .formatted(HeldTime.MOST_RELEASE_DAYS));
        }
        sessions.takeTurns();
        var found = sessions.findLocked(id);
        if (found.isEmpty()
                || found.get().version() != version
                || found.get().closedBecause().isPresent()) {
            return new Overtaken();
        }
        var kept = found.get();
        var session = kept.session();
        if (kept.date().isBefore(today())) {
            return new Refused("It is over. Time is held of a session on its day or before.");
        }
        if (minutes > session.minutes()) {
            return new Refused(
                    "The session has %s. Hold at most those.".formatted(CountedWords.of(session.minutes(), "minute")));
        }
        var held = new HeldTime(minutes, releaseDays);
        keep(kept, held);
        var others = following ? likeIt(kept) : List.<KeptSession>of();
        var fitting = others.stream()
                .filter(one -> minutes <= one.session().minutes())
                .toList();
        fitting.forEach(one -> keep(one, held));
        auditTrail.record(
                "held %s of the session".formatted(CountedWords.of(minutes, "minute")), Sessions.subject(session));
        return following
                ? new Done(List.of(
                        CountedWords.of(fitting.size(), "later session holds", "later sessions hold") + " the same."))
                : Done.plainly();
    }

    private List<KeptSession> likeIt(KeptSession kept) {
        var session = kept.session();
        var time = session.start().toLocalTime();
        return open(kept.date().plusDays(1), session.kind()).stream()
                .filter(other -> other.session().place().equals(session.place())
                        && other.date().getDayOfWeek() == kept.date().getDayOfWeek()
                        && other.session().start().toLocalTime().equals(time))
                .toList();
    }

    /**
     * Chooses how much of each week is held in the procedure room: at once in every open session from today on, whatever it
     * held before, and later in those that are entered.
     *
     * @param minutes of the days of the week, 0 to 1440 each; on a day with several sessions the first holds them, and the next
     *     what does not fit into it
     * @param releaseDays 0 or more
     */
    @RolesAllowed(IS_MANAGER)
    @Transactional
    public TimetableOutcome choose(Map<DayOfWeek, Integer> minutes, int releaseDays) {
        if (releaseDays < 0
                || releaseDays > HeldTime.MOST_RELEASE_DAYS
                || minutes.values().stream().anyMatch(of -> of < 0 || of > MINUTES_OF_A_DAY)) {
            return new Refused("Minutes of a day are 0 to %d, and days before the session 0 to %d."
                    .formatted(MINUTES_OF_A_DAY, HeldTime.MOST_RELEASE_DAYS));
        }
        sessions.takeTurns();
        store.add(minutes, releaseDays, currentPerson.get(), now());
        var choice = store.latest().orElseThrow();
        var left = new HashMap<LocalDate, Integer>();
        var changed = 0;
        for (var kept : open(today(), SessionKind.PROCEDURE_ROOM)) {
            var ofDay = left.getOrDefault(kept.date(), choice.on(kept.date().getDayOfWeek()));
            var held = new HeldTime(Math.min(ofDay, kept.session().minutes()), releaseDays);
            left.put(kept.date(), ofDay - held.minutes());
            if (!same(held, kept.session().held())) {
                keep(kept, held);
                changed++;
            }
        }
        auditTrail.record(
                "chose to hold %s of each week, released %s before"
                        .formatted(CountedWords.of(choice.inAWeek(), "minute"), CountedWords.of(releaseDays, "day")),
                SessionKind.PROCEDURE_ROOM.words());
        return new Done(List.of(CountedWords.of(changed, "session was", "sessions were") + " changed."));
    }

    private static boolean same(HeldTime one, HeldTime other) {
        return one.equals(other) || one.minutes() == 0 && other.minutes() == 0;
    }

    private List<KeptSession> open(LocalDate first, SessionKind kind) {
        return sessions.between(first, today().plusDays(Sessions.FURTHEST_DAYS)).stream()
                .filter(one ->
                        one.session().kind() == kind && one.closedBecause().isEmpty())
                .toList();
    }

    private void keep(KeptSession kept, HeldTime held) {
        if (!sessions.hold(kept.id(), kept.version(), held, currentPerson.get(), now())) {
            throw new IllegalStateException("a session changed under its lock");
        }
    }

    private LocalDate today() {
        return LocalDate.now(clock);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
