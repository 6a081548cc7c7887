package limbqueue.timetable;

import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.booking.CasePath.NotQueued;
import limbqueue.booking.Plan;
import limbqueue.booking.Planner;
import limbqueue.booking.Search;
import limbqueue.booking.Session;
import limbqueue.booking.StepKind;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
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

    /** What is stored at one moment. */
    private record Stored(
            LocalDate today,
            LocalDate lastDay,
            List<QueuedCase> queue,
            Map<Long, KeptSession> sessions,
            List<Placed> inSessions,
            Map<Long, List<Placed>> places,
            Map<Long, Map<StepKind, Integer>> versions) {}

    /**
     * The plan, as the difference to what is booked.
     *
     * @param by who asked for it
     */
    Proposal proposal(Search search, String by, Instant at) {
        var stored = Optional.ofNullable(transaction.execute(_ -> read())).orElseThrow();
        var waiting =
                stored.queue().stream().flatMap(one -> one.waiting().stream()).toList();
        var plan =
                Planner.plan(new Waiting(stored.today(), stored.lastDay(), openTo(stored, waiting), waiting), search);
        return difference(stored, plan, by, at);
    }

    private Stored read() {
        var today = LocalDate.now(clock);
        var lastDay = today.plusWeeks(WEEKS);
        var kept = sessions.between(today, lastDay);
        var queue = paths.queue();
        var ids = queue.stream().map(QueuedCase::referralId).toList();
        var places = store.of(ids);
        var all = new HashMap<Long, KeptSession>();
        kept.forEach(one -> all.put(one.id(), one));
        sessions.these(places.stream().map(Placed::session).toList()).forEach(one -> all.put(one.id(), one));
        return new Stored(
                today,
                lastDay,
                queue,
                all,
                store.inSessions(kept.stream().map(KeptSession::id).toList()),
                places.stream().collect(Collectors.groupingBy(Placed::referralId)),
                store.versions(ids));
    }

    /** Sessions less the minutes of those who are not planned anew: they keep their places. */
    private static List<Session> openTo(Stored stored, Collection<WaitingCase> waiting) {
        var planned = planned(stored, waiting);
        var held = stored.inSessions().stream()
                .filter(one -> !planned.contains(key(one.referralId(), one.step())))
                .collect(Collectors.groupingBy(
                        Placed::session,
                        Collectors.summingLong(one -> one.minutes().expected())));
        var open = new ArrayList<Session>();
        for (var kept : stored.sessions().values()) {
            var session = kept.session();
            var left = Math.toIntExact(session.minutes() - held.getOrDefault(kept.id(), 0L));
            if (!kept.date().isBefore(stored.today()) && !kept.date().isAfter(stored.lastDay()) && left > 0) {
                open.add(new Session(
                        session.id(),
                        session.kind(),
                        session.start(),
                        session.end(),
                        left,
                        session.place(),
                        session.operator(),
                        session.capabilities(),
                        session.closed()));
            }
        }
        return open;
    }

    private static Set<String> planned(Stored stored, Collection<WaitingCase> waiting) {
        var ids = stored.queue().stream().collect(Collectors.toMap(QueuedCase::reference, QueuedCase::referralId));
        return waiting.stream()
                .flatMap(one -> one.steps().stream()
                        .map(step -> key(
                                Optional.ofNullable(ids.get(one.reference())).orElseThrow(), step.kind())))
                .collect(Collectors.toSet());
    }

    private static String key(long referralId, StepKind step) {
        return referralId + " " + step;
    }

    private static Proposal difference(Stored stored, Plan plan, String by, Instant at) {
        var byReference = stored.queue().stream().collect(Collectors.toMap(QueuedCase::reference, one -> one));
        var byName = stored.sessions().values().stream()
                .collect(Collectors.toMap(one -> one.session().id(), one -> one));
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
            Stored stored, QueuedCase queued, Plan.CasePlan planned, Plan.StepPlan step, KeptSession to) {
        var place = stored.places().getOrDefault(queued.referralId(), List.of()).stream()
                .filter(one -> one.step() == step.step())
                .findFirst();
        if (place.filter(one -> one.session() == to.id()).isPresent()) {
            return Optional.empty();
        }
        return Optional.of(new Move(
                queued.referralId(),
                queued.reference(),
                queued.patient(),
                planned.tier(),
                step.step(),
                stored.versions().getOrDefault(queued.referralId(), Map.of()).getOrDefault(step.step(), 0),
                place.flatMap(one -> Optional.ofNullable(stored.sessions().get(one.session()))),
                to,
                step.at().orElse(to.session().start()),
                step.minutes(),
                place.map(Placed::told).orElse(false),
                step.why(),
                step.forEarlier()));
    }
}
