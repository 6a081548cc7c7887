package limbqueue.timetable;

import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.shell.CountedWords;
import limbqueue.timetable.ExpectedTimes.Change;
import limbqueue.timetable.Paths.QueuedCase;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Puts steps of referrals into sessions, by hand or by a plan. A booked procedure follows its appointment, and so do those that were behind it. */
@Component
class Placing {

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final Paths paths;
    private final ExpectedTimes times;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    Placing(
            AppointmentStore store,
            SessionStore sessions,
            Paths paths,
            ExpectedTimes times,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            ApplicationEventPublisher events,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.paths = paths;
        this.times = times;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.events = events;
        this.clock = clock;
    }

    /**
     * What is to be placed.
     *
     * @param version of the appointment, 0 for none
     */
    record Wanted(long referralId, StepKind step, int version, long session, boolean planned) {}

    /**
     * Places a step.
     *
     * @param agreed concerns that a person has said yes to
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public TimetableOutcome place(Wanted wanted, Set<Concern.Kind> agreed) {
        store.takeTurns(wanted.referralId());
        var places = places(wanted.referralId());
        var from = Optional.ofNullable(places.get(wanted.step()));
        var locked = locked(wanted, from);
        if (!locked.containsKey(wanted.session())) {
            return new Refused("There is no such session.");
        }
        var into = filled(locked, wanted.session());
        var refusal = refusal(into.kept(), wanted.step());
        if (refusal.isPresent()) {
            return refusal.get();
        }
        var queue = paths.queue();
        var queued = queue.stream()
                .filter(one -> one.referralId() == wanted.referralId())
                .findFirst();
        var step = queued.flatMap(one -> step(one, wanted.step()));
        if (queued.isEmpty() || step.isEmpty()) {
            return new Refused("The referral does not wait for this: it is not approved any more, is booked outside of"
                    + " the sessions, or has no such step before it.");
        }
        if (version(wanted.referralId(), wanted.step()) != wanted.version()) {
            return new Overtaken();
        }
        if (from.filter(one -> one.session().id() == wanted.session()).isPresent()) {
            return new Refused("It is in this session already.");
        }
        var elsewhere = places.values().stream()
                .filter(one -> one.placed().step() != wanted.step()
                        && one.session().session().overlaps(into.kept().session()))
                .findFirst();
        if (elsewhere.isPresent()) {
            return new Refused("The patient is elsewhere then: %s, %s."
                    .formatted(
                            elsewhere.get().placed().step().words(),
                            elsewhere.get().session().words()));
        }
        var concerns = concerns(queued.get(), step.get(), into, places);
        takesHeldTime(queue, queued.get(), step.get(), into).ifPresent(concerns::add);
        var left = from.map(one -> filled(locked, one.session().id()));
        var changes = left.flatMap(session -> from.map(one -> times.changes(session, session.without(one.placed()))))
                .orElse(List.of());
        ExpectedTimes.questions(changes)
                .forEach(question -> concerns.add(new Concern(Concern.Kind.OTHERS_TOLD, question)));
        if (concerns.stream().anyMatch(concern -> !agreed.contains(concern.kind()))) {
            return new AsksFirst(concerns.stream().map(Concern::text).toList());
        }
        return put(wanted, queued.get(), step.get(), into).orElseGet(() -> new Done(followed(from, changes)));
    }

    /** Those who were behind it follow, and whoever could take the place is looked for. */
    private List<String> followed(Optional<Place> from, List<Change> changes) {
        from.map(Place::placed)
                .ifPresent(placed -> events.publishEvent(new AppointmentMoved(placed.referralId(), placed.step())));
        times.follow(changes);
        var today = LocalDate.now(clock);
        return Stream.concat(
                        ExpectedTimes.remarks(changes).stream(),
                        from
                                .filter(one -> ShortNotice.offers(one.session(), today))
                                .map(_ -> ShortNotice.FREED)
                                .stream())
                .toList();
    }

    /** The session that is gone to and the one that is left, in one order for everybody, so that no two wait for each other. */
    private Map<Long, KeptSession> locked(Wanted wanted, Optional<Place> from) {
        var locked = new HashMap<Long, KeptSession>();
        Stream.concat(
                        Stream.of(wanted.session()),
                        from.stream().map(one -> one.session().id()))
                .distinct()
                .sorted()
                .forEach(id -> sessions.findLocked(id).ifPresent(session -> locked.put(id, session)));
        return locked;
    }

    private FilledSession filled(Map<Long, KeptSession> locked, long session) {
        return new FilledSession(
                Optional.ofNullable(locked.get(session)).orElseThrow(),
                store.inSessions(List.of(session)),
                clock.getZone());
    }

    /** @return why that cannot be; empty once it is done */
    private Optional<TimetableOutcome> put(Wanted wanted, QueuedCase queued, Step step, FilledSession into) {
        if (wanted.step() == StepKind.PROCEDURE) {
            // A procedure that has a date already keeps one: the drugs that are held and the gate go by it.
            var moved = times.book(
                    wanted.referralId(),
                    into.startsForTheNext(),
                    into.kept().session().place(),
                    true);
            if (moved.isPresent()) {
                return moved;
            }
        }
        if (!store.put(
                wanted.referralId(),
                wanted.step(),
                wanted.version(),
                wanted.session(),
                step.minutes(),
                wanted.planned(),
                currentPerson.get(),
                clock.instant().truncatedTo(ChronoUnit.MICROS))) {
            throw new IllegalStateException("an appointment changed under its lock");
        }
        auditTrail.record(
                (wanted.planned() ? "accepted from the plan: " : "placed by hand: ")
                        + wanted.step().words(),
                queued.reference());
        return Optional.empty();
    }

    private Optional<TimetableOutcome> refusal(KeptSession session, StepKind step) {
        if (session.closedBecause().isPresent()) {
            return Optional.of(new Refused(
                    "The session is closed: " + session.closedBecause().get()));
        }
        if (session.session().kind() != step.session()) {
            return Optional.of(new Refused("This is a session of the %s; %s is done in the %s."
                    .formatted(
                            session.session().kind().words(),
                            step.words(),
                            step.session().words())));
        }
        return session.date().isBefore(LocalDate.now(clock))
                ? Optional.of(new Refused("The session is over. Choose one of today or later."))
                : Optional.empty();
    }

    private static Optional<Step> step(QueuedCase queued, StepKind kind) {
        return queued.waiting().stream()
                .flatMap(waiting -> waiting.steps().stream())
                .filter(step -> step.kind() == kind)
                .findFirst();
    }

    private int version(long referralId, StepKind step) {
        return store.versions(List.of(referralId))
                .getOrDefault(referralId, Map.of())
                .getOrDefault(step, 0);
    }

    private record Place(Placed placed, KeptSession session) {}

    private Map<StepKind, Place> places(long referralId) {
        var placed = store.of(List.of(referralId));
        var all = sessions.these(placed.stream().map(Placed::session).toList()).stream()
                .collect(Collectors.toMap(KeptSession::id, one -> one));
        var places = new EnumMap<StepKind, Place>(StepKind.class);
        placed.forEach(one -> places.put(
                one.step(),
                new Place(one, Optional.ofNullable(all.get(one.session())).orElseThrow())));
        return places;
    }

    private Optional<Concern> takesHeldTime(List<QueuedCase> queue, QueuedCase queued, Step step, FilledSession into) {
        var session = into.kept().session();
        var today = LocalDate.now(clock);
        if (session.keptOn(today) == 0 || isUrgent(queued)) {
            return Optional.empty();
        }
        var urgent = queue.stream()
                .filter(Placing::isUrgent)
                .map(QueuedCase::referralId)
                .collect(Collectors.toSet());
        var others = into.patients().stream()
                .filter(one -> !urgent.contains(one.referralId()))
                .mapToLong(one -> one.minutes().expected())
                .sum();
        var takes = others + step.minutes().expected() - (session.minutes() - session.keptOn(today));
        return takes <= 0
                ? Optional.empty()
                : Optional.of(new Concern(
                        Concern.Kind.HELD,
                        "It would take %d of the %s held for urgent cases until the end of %s."
                                .formatted(
                                        Math.min(takes, session.keptOn(today)),
                                        CountedWords.of(session.keptOn(today), "minute that is", "minutes that are"),
                                        session.held().lastDay(session.date()))));
    }

    private static boolean isUrgent(QueuedCase queued) {
        return queued.waiting()
                .filter(waiting -> HeldTime.isFor(waiting.tier()))
                .isPresent();
    }

    private static List<Concern> concerns(
            QueuedCase queued, Step step, FilledSession into, Map<StepKind, Place> places) {
        var concerns = new ArrayList<Concern>();
        var session = into.kept().session();
        Optional.ofNullable(places.get(step.kind()))
                .filter(from -> from.placed().told())
                .ifPresent(from -> concerns.add(new Concern(
                        Concern.Kind.TOLD,
                        "%s has been told of %s and must be told anew."
                                .formatted(from.placed().who(), from.session().words()))));
        var over = into.expected() + step.minutes().expected() - session.minutes();
        if (over > 0) {
            concerns.add(new Concern(
                    Concern.Kind.FULL,
                    "The session would run about %s over its end.".formatted(CountedWords.of(over, "minute"))));
        }
        var lacks = step.needs().stream()
                .filter(need -> !session.capabilities().contains(need))
                .sorted()
                .map(Capability::words)
                .collect(Collectors.joining(" and "));
        if (!lacks.isEmpty()) {
            concerns.add(new Concern(Concern.Kind.UNFIT, "The session lacks %s.".formatted(lacks)));
        }
        step.barred().stream()
                .filter(barred -> barred.bars(session))
                .forEach(barred -> concerns.add(
                        new Concern(Concern.Kind.UNFIT, "It cannot be then: %s.".formatted(barred.why()))));
        places.values().stream()
                .filter(other -> outOfOrder(step.kind(), session.start(), other))
                .forEach(other -> concerns.add(new Concern(
                        Concern.Kind.ORDER,
                        "It would be out of order: %s is in the session %s."
                                .formatted(
                                        other.placed().step().words(),
                                        other.session().words()))));
        queued.waiting()
                .filter(waiting -> step.kind() == waiting.steps().getLast().kind()
                        && session.date().isAfter(waiting.target()))
                .ifPresent(waiting -> concerns.add(new Concern(
                        Concern.Kind.UNFIT, "It is after the target date %s.".formatted(waiting.target()))));
        return concerns;
    }

    private static boolean outOfOrder(StepKind step, LocalDateTime start, Place other) {
        var otherStart = other.session().session().start();
        var order = other.placed().step().compareTo(step);
        return order < 0 ? otherStart.isAfter(start) : order > 0 && otherStart.isBefore(start);
    }
}
