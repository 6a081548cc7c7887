package limbqueue.timetable;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.StepKind;
import limbqueue.preparation.Preparation;
import limbqueue.timetable.Placing.Wanted;
import limbqueue.timetable.Replanned.Line;
import limbqueue.timetable.TimetableOutcome.AsksFirst;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/** Does what a new plan proposes. Whatever is not done as a whole is to be taken back by whoever began the transaction. */
@Component
class Accepting {

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final Placing placing;
    private final Preparation preparation;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    Accepting(
            AppointmentStore store,
            SessionStore sessions,
            Placing placing,
            Preparation preparation,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.placing = placing;
        this.preparation = preparation;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    @Transactional(propagation = Propagation.MANDATORY)
    public TimetableOutcome accept(Replanned replanned, List<Line> chosen, List<Line> saidYes) {
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
        return changedMeanwhile(replanned, chosen, locked)
                .<TimetableOutcome>map(what -> new Refused(
                        "%s has been changed by somebody else meanwhile. Nothing was done; plan anew.".formatted(what)))
                .orElseGet(() -> accept(replanned, chosen));
    }

    private TimetableOutcome accept(Replanned replanned, List<Line> chosen) {
        replanned.closes().forEach(session -> close(session, replanned.closedFor()));
        replanned.emergency().ifPresent(this::take);
        var refused = takeOut(replanned, chosen).or(() -> place(chosen));
        return refused.orElseGet(() -> new Done(remarks(replanned, chosen)));
    }

    private Map<Long, KeptSession> locked(Replanned replanned, List<Line> chosen) {
        var ids = Stream.of(
                        replanned.closes().stream(),
                        replanned.emergency().stream().map(Replanned.EmergencyPlace::session),
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
        auditTrail.record("gave %d minutes to an emergency".formatted(emergency.minutes()), session.words());
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
            remarks.add(
                    replanned.closes().size() == 1
                            ? "1 session is closed."
                            : replanned.closes().size() + " sessions are closed.");
        }
        replanned.emergency().ifPresent(emergency -> {
            remarks.add("%d minutes are taken for the emergency: %s."
                    .formatted(emergency.minutes(), emergency.session().words()));
            var now = new FilledSession(
                    sessions.findLocked(emergency.session().id()).orElseThrow(),
                    store.inSessions(List.of(emergency.session().id())));
            if (now.over() > 0) {
                remarks.add("That session now runs about %d minutes over its end.".formatted(now.over()));
            }
        });
        remarks.add(
                chosen.size() == replanned.lines().size()
                        ? "Changed: %d.".formatted(chosen.size())
                        : "Changed: %d. Left: %d."
                                .formatted(chosen.size(), replanned.lines().size() - chosen.size()));
        return remarks;
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
