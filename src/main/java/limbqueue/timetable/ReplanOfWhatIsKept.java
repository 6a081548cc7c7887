package limbqueue.timetable;

import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.booking.Disruption;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.KeptPlaces;
import limbqueue.booking.Replan;
import limbqueue.booking.Replanner;
import limbqueue.booking.StepKind;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
import limbqueue.timetable.Proposal.Unplaced;
import limbqueue.timetable.Replanned.EmergencyPlace;
import limbqueue.timetable.Replanned.Line;
import org.springframework.stereotype.Component;

/** Plans anew what is stored, after something has happened to it. */
@Component
class ReplanOfWhatIsKept {

    private final PlanOfWhatIsKept plan;
    private final Clock clock;

    ReplanOfWhatIsKept(PlanOfWhatIsKept plan, Clock clock) {
        this.plan = plan;
        this.clock = clock;
    }

    /**
     * The new plan, as the difference to what is booked.
     *
     * @param what has happened, as a sentence
     * @param closedFor why sessions are closed for it, as it will be stored; empty where it closes none
     * @throws IllegalArgumentException if it is of a case that does not wait
     */
    Replanned of(Disruption disruption, String what, String closedFor, Instant at) {
        var stored = plan.read();
        var day = new DayUnderWay(stored);
        var cases = day.waiting();
        var replan = Replanner.replan(
                new Waiting(stored.today(), stored.lastDay(), day.sessions(), cases, clock.getZone()),
                kept(stored, cases),
                disruption,
                Replanner.USUAL);
        return difference(stored, disruption, replan, what, closedFor, at);
    }

    private static KeptPlaces kept(WhatIsKept stored, List<WaitingCase> cases) {
        var ids = stored.byReference();
        var kept = new HashMap<String, Map<StepKind, String>>();
        for (var one : cases) {
            var id = Optional.ofNullable(ids.get(one.reference())).orElseThrow().referralId();
            var places = new EnumMap<StepKind, String>(StepKind.class);
            one.steps()
                    .forEach(step -> stored.place(id, step.kind())
                            .flatMap(place ->
                                    Optional.ofNullable(stored.sessions().get(place.session())))
                            .ifPresent(session ->
                                    places.put(step.kind(), session.session().id())));
            kept.put(one.reference(), places);
        }
        return new KeptPlaces(kept);
    }

    private static Replanned difference(
            WhatIsKept stored, Disruption disruption, Replan replan, String what, String closedFor, Instant at) {
        var byReference = stored.byReference();
        var byName = stored.byName();
        // Closed whether or not the search could use them: also what has no room left.
        var closes = disruption
                .closes(stored.sessions().values().stream()
                        .map(KeptSession::session)
                        .toList())
                .stream()
                .filter(session -> session.end().isAfter(stored.now()))
                .flatMap(session -> Optional.ofNullable(byName.get(session.id())).stream())
                .sorted(Comparator.comparing(session -> session.session().start()))
                .toList();
        return new Replanned(
                replan.notice(),
                at,
                what,
                closes,
                closes.isEmpty() ? "" : closedFor,
                emergency(disruption, replan, byName),
                replan.moves().stream()
                        .flatMap(moved -> Optional.ofNullable(byReference.get(moved.reference()))
                                .map(queued -> line(stored, queued, moved, byName))
                                .stream())
                        .toList(),
                replan.without().stream()
                        .map(one -> Optional.ofNullable(byReference.get(one.reference()))
                                .map(queued -> new Unplaced(
                                        queued.referralId(), queued.reference(), queued.patient(), one.why()))
                                .orElseGet(() -> new Unplaced(0, one.reference(), "", one.why())))
                        .toList());
    }

    private static Optional<EmergencyPlace> emergency(
            Disruption disruption, Replan replan, Map<String, KeptSession> byName) {
        return disruption instanceof Emergency(var reference, var minutes, var _)
                ? replan.moves().stream()
                        .filter(moved -> moved.reference().equals(reference))
                        .flatMap(moved -> moved.to().stream())
                        .flatMap(name -> Optional.ofNullable(byName.get(name)).stream())
                        .map(session -> new EmergencyPlace(session, minutes))
                        .findFirst()
                : Optional.empty();
    }

    private static Line line(
            WhatIsKept stored, Paths.QueuedCase queued, Replan.Moved moved, Map<String, KeptSession> byName) {
        return new Line(
                queued.referralId(),
                queued.reference(),
                queued.patient(),
                moved.tier(),
                moved.step(),
                stored.version(queued.referralId(), moved.step()),
                moved.from().flatMap(name -> Optional.ofNullable(byName.get(name))),
                moved.to().flatMap(name -> Optional.ofNullable(byName.get(name))),
                moved.at(),
                moved.minutes(),
                moved.told(),
                moved.cause(),
                moved.why());
    }
}
