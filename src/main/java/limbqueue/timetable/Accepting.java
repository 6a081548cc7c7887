package limbqueue.timetable;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
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
import limbqueue.shell.CountedWords;
import limbqueue.timetable.ExpectedTimes.Change;
import limbqueue.timetable.Placing.Wanted;
import limbqueue.timetable.Replanned.Line;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Does what a new plan proposes. Whatever is not done as a whole is to be taken back by whoever began the transaction. */
@Component
class Accepting {

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final Placing placing;
    private final ExpectedTimes times;
    private final Preparation preparation;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;
    private final Clock clock;

    Accepting(
            AppointmentStore store,
            SessionStore sessions,
            Placing placing,
            ExpectedTimes times,
            Preparation preparation,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            ApplicationEventPublisher events,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.placing = placing;
        this.times = times;
        this.preparation = preparation;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.events = events;
        this.clock = clock;
    }

    /** @param othersToo whether a person has said yes to what it does to those who have been told and are in no line */
    @Transactional(propagation = Propagation.MANDATORY)
    public TimetableOutcome accept(Replanned replanned, List<Line> chosen, List<Line> saidYes, boolean othersToo) {
        if (!replanned.lines().containsAll(chosen)) {
            return new Refused("That is no line of this plan. Plan anew.");
        }
        var unasked = chosen.stream()
                .filter(line -> line.told() && !saidYes.contains(line))
                .toList();
        if (!unasked.isEmpty()) {
            return new AsksFirst(unasked.stream()
                    .map(line -> "%s, %s, has been told of it and must be told anew."
                            .formatted(line.who(), line.step().words()))
                    .toList());
        }
        // In one order for everybody, so that no two wait for each other.
        chosen.stream().map(Line::referralId).distinct().sorted().forEach(store::takeTurns);
        var locked = locked(replanned, chosen);
        var changed = changedMeanwhile(replanned, chosen, locked);
        if (changed.isPresent()) {
            return new Refused("%s has been changed by somebody else meanwhile. Nothing was done; plan anew."
                    .formatted(changed.get()));
        }
        var changes = changes(replanned, chosen, locked);
        var questions = ExpectedTimes.questions(changes);
        return questions.isEmpty() || othersToo ? accept(replanned, chosen, changes) : new AsksFirst(questions);
    }

    /** Who stays in a session that others leave, and is expected earlier with that. */
    private List<Change> changes(Replanned replanned, List<Line> chosen, Map<Long, KeptSession> locked) {
        var leaving = chosen.stream()
                .filter(line -> !staysInAClosedSession(line, replanned))
                .collect(Collectors.groupingBy(
                        line -> line.from().map(KeptSession::id).orElse(0L),
                        Collectors.mapping(line -> WhatIsKept.key(line.reference(), line.step()), Collectors.toSet())));
        return locked.values().stream()
                .filter(session -> leaving.containsKey(session.id())
                        && replanned.closes().stream().noneMatch(closed -> closed.id() == session.id()))
                .sorted(Comparator.comparing(KeptSession::id))
                .flatMap(session -> {
                    var before = new FilledSession(session, store.inSessions(List.of(session.id())), clock.getZone());
                    var gone = leaving.getOrDefault(session.id(), Set.of());
                    return times
                            .changes(
                                    before,
                                    before.without(one -> gone.contains(WhatIsKept.key(one.reference(), one.step()))))
                            .stream();
                })
                .toList();
    }

    private TimetableOutcome accept(Replanned replanned, List<Line> chosen, List<Change> changes) {
        replanned.closes().forEach(session -> close(session, replanned.closedFor()));
        replanned.emergency().ifPresent(this::take);
        var refused = takeOut(replanned, chosen).or(() -> place(chosen));
        if (refused.isPresent()) {
            return refused.get();
        }
        times.follow(changes);
        return new Done(Stream.concat(remarks(replanned, chosen).stream(), ExpectedTimes.remarks(changes).stream())
                .toList());
    }

    private Map<Long, KeptSession> locked(Replanned replanned, List<Line> chosen) {
        var ids = Stream.of(
                        replanned.closes().stream(),
                        replanned.emergency().stream().map(Replanned.EmergencyPlace::session),
                        chosen.stream().flatMap(line -> line.from().stream()),
                        chosen.stream().flatMap(line -> line.to().stream()))
                .flatMap(all -> all)
                .map(KeptSession::id)
                .distinct()
                .sorted()
                .toList();
        var locked = new HashMap<Long, KeptSession>();
        ids.forEach(id -> sessions.findLocked(id).ifPresent(session -> locked.put(id, session)));
        return locked;
    }

    /** The first thing that is not as it was when it was planned. */
    private Optional<String> changedMeanwhile(Replanned replanned, List<Line> chosen, Map<Long, KeptSession> locked) {
        var versions =
                store.versions(chosen.stream().map(Line::referralId).distinct().toList());
        return Stream.concat(
                        Stream.concat(
                                        replanned.closes().stream(),
                                        replanned.emergency().stream().map(Replanned.EmergencyPlace::session))
                                .filter(session -> !Optional.ofNullable(locked.get(session.id()))
                                        .map(KeptSession::version)
                                        .equals(Optional.of(session.version())))
                                .map(KeptSession::words),
                        chosen.stream()
                                .filter(line -> versions.getOrDefault(line.referralId(), Map.of())
                                                .getOrDefault(line.step(), 0)
                                        != line.version())
                                .map(line -> "%s, %s,"
                                        .formatted(line.who(), line.step().words())))
                .findFirst();
    }

    private void close(KeptSession session, String because) {
        if (!sessions.close(session.id(), session.version(), Optional.of(because), currentPerson.get(), now())) {
            throw new IllegalStateException("a session changed under its lock");
        }
        auditTrail.record("closed the session", session.words());
    }

    private void take(Replanned.EmergencyPlace emergency) {
        var session = emergency.session();
        if (!sessions.giveToEmergencies(
                session.id(),
                session.version(),
                session.emergencyMinutes() + emergency.minutes(),
                currentPerson.get(),
                now())) {
            throw new IllegalStateException("a session changed under its lock");
        }
        auditTrail.record(
                "gave %s to an emergency".formatted(CountedWords.of(emergency.minutes(), "minute")), session.words());
    }

    /** Everybody leaves before anybody comes, so that two can exchange their places. */
    private Optional<TimetableOutcome> takeOut(Replanned replanned, List<Line> chosen) {
        for (var line : chosen) {
            if (line.from().isEmpty() || staysInAClosedSession(line, replanned)) {
                continue;
            }
            var booked = line.to().isEmpty()
                    && line.step() == StepKind.PROCEDURE
                    && preparation.get(line.referralId()).booking().isPresent();
            if (booked) {
                return Optional.of(new Refused(("%s: the patient has been told of a date for the procedure, and it is"
                                + " prepared for it. Find it another place by hand; nothing was done.")
                        .formatted(line.who())));
            }
            var placed = store.of(List.of(line.referralId())).stream()
                    .filter(one -> one.step() == line.step())
                    .findFirst()
                    .orElseThrow();
            if (!store.takeOut(placed.id(), placed.version(), currentPerson.get(), now())) {
                throw new IllegalStateException("an appointment changed under its lock");
            }
            if (line.to().isEmpty()) {
                auditTrail.record("took out of its session: " + line.step().words(), line.reference());
                events.publishEvent(new AppointmentTakenOut(
                        line.referralId(),
                        line.step(),
                        line.from().orElseThrow().session().place()));
            } else {
                events.publishEvent(new AppointmentMoved(line.referralId(), line.step()));
            }
        }
        return Optional.empty();
    }

    /** Whoever has no other place stays there, for a person to find one. */
    private static boolean staysInAClosedSession(Line line, Replanned replanned) {
        return line.to().isEmpty()
                && line.from()
                        .filter(from -> from.closedBecause().isPresent()
                                || replanned.closes().contains(from))
                        .isPresent();
    }

    private Optional<TimetableOutcome> place(List<Line> chosen) {
        var inOrder = new ArrayList<>(chosen);
        inOrder.sort(Comparator.comparing(Line::step).thenComparing(Line::referralId));
        for (var line : inOrder) {
            if (line.to().isPresent()) {
                var outcome = placing.place(
                        new Wanted(
                                line.referralId(),
                                line.step(),
                                line.from().isPresent() ? line.version() + 1 : line.version(),
                                line.to().get().id(),
                                true),
                        EnumSet.of(Concern.Kind.TOLD, Concern.Kind.UNFIT));
                if (!(outcome instanceof Done)) {
                    return Optional.of(
                            new Refused("%s, %s: %s Nothing was done; choose the other lines that go with it."
                                    .formatted(line.who(), line.step().words(), why(outcome))));
                }
            }
        }
        return Optional.empty();
    }

    private static String why(TimetableOutcome outcome) {
        return switch (outcome) {
            case Refused(var why) -> why;
            case AsksFirst(var concerns) -> String.join(" ", concerns);
            case TimetableOutcome.Overtaken _ -> "Somebody else has changed it meanwhile.";
            case Done _ -> "";
        };
    }

    private List<String> remarks(Replanned replanned, List<Line> chosen) {
        var remarks = new ArrayList<String>();
        if (!replanned.closes().isEmpty()) {
            remarks.add(CountedWords.of(replanned.closes().size(), "session is", "sessions are") + " closed.");
        }
        replanned.emergency().ifPresent(emergency -> {
            remarks.add("%s taken for the emergency: %s."
                    .formatted(
                            CountedWords.of(emergency.minutes(), "minute is", "minutes are"),
                            emergency.session().words()));
            var now = new FilledSession(
                    sessions.findLocked(emergency.session().id()).orElseThrow(),
                    store.inSessions(List.of(emergency.session().id())),
                    clock.getZone());
            if (now.over() > 0) {
                remarks.add("That session now runs about %s over its end."
                        .formatted(CountedWords.of(now.over(), "minute")));
            }
        });
        if (chosen.stream().anyMatch(line -> frees(line, replanned))) {
            remarks.add(ShortNotice.FREED);
        }
        remarks.add(
                chosen.size() == replanned.lines().size()
                        ? "Changed: %d.".formatted(chosen.size())
                        : "Changed: %d. Left: %d."
                                .formatted(chosen.size(), replanned.lines().size() - chosen.size()));
        return remarks;
    }

    /** Whether it leaves a place of the next days free that somebody else can be called for. */
    private boolean frees(Line line, Replanned replanned) {
        var today = LocalDate.now(clock);
        return line.from()
                .filter(from -> !replanned.closes().contains(from) && ShortNotice.offers(from, today))
                .isPresent();
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
