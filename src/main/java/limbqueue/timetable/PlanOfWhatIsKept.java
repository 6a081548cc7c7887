package limbqueue.timetable;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.CasePath.NotQueued;
import limbqueue.booking.Plan;
import limbqueue.booking.Planner;
import limbqueue.booking.Search;
import limbqueue.booking.Waiting;
import limbqueue.timetable.Paths.QueuedCase;
import limbqueue.timetable.Proposal.Move;
import limbqueue.timetable.Proposal.Unplaced;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/** Plans what is stored: who waits, and the sessions of the weeks to come. */
@Component
class PlanOfWhatIsKept {

    /** As far as it makes sense to tell somebody a day (common practice, no source). */
    static final int WEEKS = 12;

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final Paths paths;
    private final TransactionTemplate transaction;
    private final Clock clock;

    PlanOfWhatIsKept(
            AppointmentStore store, SessionStore sessions, Paths paths, TransactionTemplate transaction, Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.paths = paths;
        this.transaction = transaction;
        this.clock = clock;
    }

    /**
     * The plan, as the difference to what is booked.
     *
     * @param by who asked for it
     */
    Proposal proposal(Search search, String by, Instant at) {
        var stored = read();
        var waiting = stored.waiting();
        var plan = Planner.plan(
                new Waiting(stored.today(), stored.lastDay(), stored.openTo(waiting), waiting, stored.zone()), search);
        return difference(stored, plan, by, at);
    }

    /** What is stored now. */
    WhatIsKept read() {
        return Optional.ofNullable(transaction.execute(_ -> stored())).orElseThrow();
    }

    private WhatIsKept stored() {
        var now = LocalDateTime.now(clock);
        var today = now.toLocalDate();
        var lastDay = today.plusWeeks(WEEKS);
        var kept = sessions.between(today, lastDay);
        var queue = paths.queue();
        var ids = queue.stream().map(QueuedCase::referralId).toList();
        var places = store.of(ids);
        var all = new HashMap<Long, KeptSession>();
        kept.forEach(one -> all.put(one.id(), one));
        sessions.these(places.stream().map(Placed::session).toList()).forEach(one -> all.put(one.id(), one));
        return new WhatIsKept(
                now,
                clock.getZone(),
                lastDay,
                queue,
                all,
                store.inSessions(kept.stream().map(KeptSession::id).toList()),
                places.stream().collect(Collectors.groupingBy(Placed::referralId)),
                store.versions(ids));
    }

    private static Proposal difference(WhatIsKept stored, Plan plan, String by, Instant at) {
        var byReference = stored.byReference();
        var byName = stored.byName();
        var moves = new ArrayList<Move>();
        var unplaced = new ArrayList<Unplaced>();
        for (var planned : plan.cases()) {
            var queued =
                    Optional.ofNullable(byReference.get(planned.reference())).orElseThrow();
            if (!planned.placed()) {
                unplaced.add(new Unplaced(queued.referralId(), queued.reference(), queued.patient(), planned.why()));
            }
            planned.steps()
                    .forEach(step -> step.session()
                            .flatMap(name -> Optional.ofNullable(byName.get(name)))
                            .flatMap(to -> move(stored, queued, planned, step, to))
                            .ifPresent(moves::add));
        }
        moves.sort(Comparator.comparing(Move::at).thenComparing(Move::referralId));
        return new Proposal(
                plan.notice(),
                at,
                by,
                stored.today(),
                stored.lastDay(),
                plan.levels(),
                List.copyOf(moves),
                List.copyOf(unplaced),
                stored.queue().stream()
                        .filter(one -> one.path() instanceof NotQueued)
                        .map(one -> new Unplaced(one.referralId(), one.reference(), one.patient(), why(one)))
                        .toList());
    }

    private static String why(QueuedCase queued) {
        return queued.path() instanceof NotQueued not ? not.why() : "";
    }

    private static Optional<Move> move(
            WhatIsKept stored, QueuedCase queued, Plan.CasePlan planned, Plan.StepPlan step, KeptSession to) {
        var place = stored.place(queued.referralId(), step.step());
        if (place.filter(one -> one.session() == to.id()).isPresent()) {
            return Optional.empty();
        }
        return Optional.of(new Move(
                queued.referralId(),
                queued.reference(),
                queued.patient(),
                planned.tier(),
                step.step(),
                stored.version(queued.referralId(), step.step()),
                place.flatMap(one -> Optional.ofNullable(stored.sessions().get(one.session()))),
                to,
                step.at().orElse(to.session().start()),
                step.minutes(),
                place.map(Placed::told).orElse(false),
                step.why(),
                step.forEarlier()));
    }
}
