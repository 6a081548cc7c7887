package limbqueue.timetable;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Collection;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.booking.CasePath;
import limbqueue.booking.CasePath.Known;
import limbqueue.booking.CasePath.NotQueued;
import limbqueue.booking.CasePath.Waits;
import limbqueue.booking.LeadDays;
import limbqueue.booking.StepKind;
import limbqueue.booking.WaitingCase;
import limbqueue.practice.PolicyInForce;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import limbqueue.triage.Policy;
import org.springframework.stereotype.Component;

/**
 * The steps that approved referrals still have before them. Each is worked out once and kept beside the database's count
 * of the referral's changes, for a day and a policy.
 */
@Component
class Paths {

    private final AppointmentStore store;
    private final SessionStore sessions;
    private final ProposedCases referrals;
    private final PolicyInForce policy;
    private final Clock clock;

    private Basis basis = new Basis(LocalDate.MIN, "", "");
    private final Map<Long, Remembered> remembered = new HashMap<>();

    Paths(AppointmentStore store, SessionStore sessions, ProposedCases referrals, PolicyInForce policy, Clock clock) {
        this.store = store;
        this.sessions = sessions;
        this.referrals = referrals;
        this.policy = policy;
        this.clock = clock;
    }

    private record Basis(LocalDate today, String policy, String ground) {}

    private record Remembered(long changes, QueuedCase queued) {}

    /**
     * An approved referral and its path.
     *
     * @param patient family and given name as far as known
     */
    record QueuedCase(long referralId, String reference, String patient, CasePath.Outcome path) {

        Optional<WaitingCase> waiting() {
            return path instanceof Waits(var waiting) ? Optional.of(waiting) : Optional.empty();
        }
    }

    /** Every approved referral that is not booked outside of the sessions, in the order of their ids. */
    synchronized List<QueuedCase> queue() {
        var policyNow = policy.version().policy();
        var basisNow = new Basis(LocalDate.now(clock), policyNow.id(), store.ground());
        if (!basisNow.equals(basis)) {
            remembered.clear();
            basis = basisNow;
        }
        var waiting = store.waiting();
        var changes = waiting.stream().collect(Collectors.toMap(AppointmentStore.Waiting::id, one -> one));
        remembered
                .entrySet()
                .removeIf(entry -> Optional.ofNullable(changes.get(entry.getKey()))
                        .filter(now -> now.changes() == entry.getValue().changes())
                        .isEmpty());
        var missing = changes.keySet().stream()
                .filter(id -> !remembered.containsKey(id))
                .toList();
        workOut(missing, policyNow)
                .forEach(one -> Optional.ofNullable(changes.get(one.referralId()))
                        .ifPresent(now -> remembered.put(one.referralId(), new Remembered(now.changes(), one))));
        return waiting.stream()
                .flatMap(one -> Optional.ofNullable(remembered.get(one.id())).stream())
                .map(Remembered::queued)
                .toList();
    }

    private List<QueuedCase> workOut(Collection<Long> ids, Policy policyNow) {
        if (ids.isEmpty()) {
            return List.of();
        }
        var known = known(ids);
        return referrals.of(ids).parallelStream()
                .map(proposed -> queued(
                        proposed,
                        policyNow,
                        known.getOrDefault(proposed.referral().id(), Known.NOTHING)))
                .toList();
    }

    private QueuedCase queued(ProposedCase proposed, Policy policyNow, Known known) {
        var path = CasePath.of(
                proposed.referral().reference(),
                proposed.document(),
                policyNow,
                LocalDate.now(clock),
                LeadDays.usual(),
                CasePath.usualMinutes(),
                known);
        var patient = proposed.document().patient();
        return new QueuedCase(
                proposed.referral().id(),
                proposed.referral().reference(),
                Stream.of(patient.family(), patient.given())
                        .flatMap(Optional::stream)
                        .filter(name -> !name.isBlank())
                        .collect(Collectors.joining(", ")),
                path instanceof Waits(var waiting) ? decided(proposed, waiting) : path);
    }

    /** What the physician decided counts, not what is proposed. */
    private static CasePath.Outcome decided(ProposedCase proposed, WaitingCase waiting) {
        return switch (proposed.tier()) {
            case SAME_DAY, ADVICE_ONLY ->
                new NotQueued(waiting.reference(), proposed.tier(), "The physician decided that it has no place.");
            case WITHIN_5_DAYS, WITHIN_14_DAYS, WITHIN_6_WEEKS, WITHIN_18_WEEKS ->
                new Waits(new WaitingCase(
                        waiting.reference(),
                        waiting.patient(),
                        proposed.tier(),
                        proposed.targetDate().orElse(waiting.target()),
                        waiting.steps()));
        };
    }

    /** What had a place in a session of an earlier day that was not closed has been done. */
    private Map<Long, Known> known(Collection<Long> ids) {
        var placed = store.of(ids);
        var all = sessions.these(placed.stream().map(Placed::session).toList()).stream()
                .collect(Collectors.toMap(KeptSession::id, one -> one));
        var today = LocalDate.now(clock);
        var known = new HashMap<Long, Known>();
        placed.stream().collect(Collectors.groupingBy(Placed::referralId)).forEach((id, places) -> {
            var told = new EnumMap<StepKind, String>(StepKind.class);
            var done = EnumSet.noneOf(StepKind.class);
            for (var place : places) {
                var session = Optional.ofNullable(all.get(place.session())).orElseThrow();
                if (session.date().isBefore(today)) {
                    if (!session.session().closed()) {
                        done.add(place.step());
                    }
                } else if (place.told()) {
                    told.put(place.step(), session.session().id());
                }
            }
            known.put(id, new Known(Set.of(), Set.of(), told, done));
        });
        return known;
    }
}
