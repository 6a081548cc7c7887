package limbqueue.timetable;

import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.booking.Barred;
import limbqueue.booking.Session;
import limbqueue.booking.Step;
import limbqueue.booking.WaitingCase;

/** What of the day is over: who has been called in already is moved by nobody, and what has passed of a session is no room. */
final class DayUnderWay {

    private final WhatIsKept stored;
    private final Set<Long> calledIn = new HashSet<>();
    /** Sessions of today that have begun, with the first moment at which somebody else can be called in. */
    private final List<Begun> begun = new ArrayList<>();

    private record Begun(KeptSession kept, LocalDateTime free) {}

    DayUnderWay(WhatIsKept stored) {
        this.stored = stored;
        var bySession = stored.inSessions().stream().collect(Collectors.groupingBy(Placed::session));
        stored.sessions().values().stream()
                .filter(kept -> kept.date().equals(stored.today())
                        && kept.closedBecause().isEmpty()
                        && !kept.session().start().isAfter(stored.now()))
                .forEach(kept ->
                        begin(new FilledSession(kept, bySession.getOrDefault(kept.id(), List.of()), stored.zone())));
    }

    private void begin(FilledSession filled) {
        var free = stored.now();
        for (var patient : filled.patients()) {
            var starts = filled.startsFor(patient);
            if (!starts.isAfter(stored.now())) {
                calledIn.add(patient.id());
                var over = filled.endsFor(patient);
                free = over.isAfter(free) ? over : free;
            }
        }
        begun.add(new Begun(filled.kept(), free));
    }

    /** Who still waits, without the steps for which the patient has been called in. */
    List<WaitingCase> waiting() {
        return stored.queue().stream()
                .flatMap(queued -> queued.waiting().stream().flatMap(one -> waiting(queued.referralId(), one).stream()))
                .toList();
    }

    private Optional<WaitingCase> waiting(long referralId, WaitingCase one) {
        var steps = new ArrayList<Step>();
        Optional<LocalDateTime> notBefore = Optional.empty();
        for (var step : one.steps()) {
            var placed = stored.place(referralId, step.kind()).filter(place -> calledIn.contains(place.id()));
            if (placed.isPresent()) {
                notBefore = placed.flatMap(
                                place -> Optional.ofNullable(stored.sessions().get(place.session())))
                        .map(session -> session.session().end());
            } else {
                steps.add(notBefore.map(end -> after(step, end)).orElse(step));
            }
        }
        return steps.isEmpty()
                ? Optional.empty()
                : Optional.of(new WaitingCase(one.reference(), one.patient(), one.tier(), one.target(), steps));
    }

    private static Step after(Step step, LocalDateTime end) {
        var barred = new ArrayList<>(step.barred());
        barred.add(Barred.before(end, "the step before it is under way"));
        return new Step(
                step.kind(),
                step.minutes(),
                step.needs(),
                barred,
                step.daysAfterPrevious(),
                step.countsDays(),
                step.told());
    }

    /** The sessions with the minutes that are still to come. */
    List<Session> sessions() {
        var waiting = waiting();
        var planned = WhatIsKept.steps(waiting);
        var left = begun.stream()
                .collect(Collectors.toMap(one -> one.kept().session().id(), one -> left(one, planned)));
        return stored.openTo(waiting).stream()
                .flatMap(session -> {
                    var minutes = left.get(session.id());
                    return minutes == null ? Stream.of(session) : lasting(session, minutes).stream();
                })
                .toList();
    }

    /** Minutes from the first moment at which somebody can be called in, less what is taken of them. */
    private long left(Begun begun, Set<String> planned) {
        return Duration.between(begun.free(), begun.kept().session().end()).toMinutes()
                - begun.kept().emergencyMinutes()
                - stored.inSessions().stream()
                        .filter(one -> one.session() == begun.kept().id()
                                && !calledIn.contains(one.id())
                                && !planned.contains(WhatIsKept.key(one.reference(), one.step())))
                        .mapToLong(one -> one.minutes().expected())
                        .sum();
    }

    private static Optional<Session> lasting(Session session, long minutes) {
        return minutes <= 0 ? Optional.empty() : Optional.of(session.lasting(Math.toIntExact(minutes)));
    }
}
