package limbqueue.worklist;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.chasing.ChasingState;
import limbqueue.chasing.ChasingStates;
import limbqueue.chasing.SafetyCalls;
import limbqueue.document.Draft;
import limbqueue.practice.PolicyInForce;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.PreparationCases;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.referral.ReferralState;
import limbqueue.worklist.jdbc.WorkQuery;
import limbqueue.worklist.jdbc.WorkQuery.Undelivered;
import limbqueue.worklist.jdbc.WorkQuery.UnderWay;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * What is to be done. Which lists a referral is in is worked out from the referral itself, and kept in memory beside the
 * database's count of its changes: asking again works out anew only what has changed since, whoever changed it on whatever
 * server.
 */
@Component
class WorkInMemory {

    /** So many are worked out at once: enough to ask the database seldom, few enough to be held at once. */
    private static final int AT_ONCE = 500;

    private final WorkQuery query;
    private final ProposedCases referrals;
    private final PreparationCases preparation;
    private final ChasingStates chasing;
    private final PolicyInForce policy;
    private final Clock clock;

    private Basis basis = new Basis(LocalDate.MIN, "", "");
    private final Map<Long, Known> known = new HashMap<>();
    private List<Undelivered> undelivered = List.of();
    private Optional<Work> last = Optional.empty();

    WorkInMemory(
            WorkQuery query,
            ProposedCases referrals,
            PreparationCases preparation,
            ChasingStates chasing,
            PolicyInForce policy,
            Clock clock) {
        this.query = query;
        this.referrals = referrals;
        this.preparation = preparation;
        this.chasing = chasing;
        this.policy = policy;
        this.clock = clock;
    }

    /** What everything was worked out from that belongs to no single referral. */
    private record Basis(LocalDate today, String policy, String ground) {}

    private record Known(UnderWay from, Map<WorkList, WorkLine> lines) {}

    /** Everything that is to be done now. Whoever asks while it is worked out waits for it. */
    @Transactional(readOnly = true)
    public synchronized Work now() {
        var basisNow = new Basis(LocalDate.now(clock), policy.version().policy().id(), query.ground());
        if (!basisNow.equals(basis)) {
            known.clear();
            last = Optional.empty();
            basis = basisNow;
        }
        var underWay = query.underWay();
        var changed = new ArrayList<UnderWay>();
        var there = new HashSet<Long>();
        for (var one : underWay) {
            there.add(one.id());
            var before = known.get(one.id());
            if (before == null || !before.from().equals(one)) {
                changed.add(one);
            }
        }
        var gone = known.keySet().retainAll(there);
        for (var from = 0; from < changed.size(); from += AT_ONCE) {
            workOut(changed.subList(from, Math.min(changed.size(), from + AT_ONCE)));
        }
        // Where a letter is counts as no change of its referral, and letters outlive the work on it.
        var undeliveredNow = query.undelivered(clock.getZone());
        if (gone || !changed.isEmpty() || last.isEmpty() || !undeliveredNow.equals(undelivered)) {
            undelivered = undeliveredNow;
            last = Optional.of(new Work(basis.today(), lists()));
        }
        return last.get();
    }

    private Map<WorkList, List<WorkLine>> lists() {
        var lists = new EnumMap<WorkList, List<WorkLine>>(WorkList.class);
        for (var list : WorkList.values()) {
            lists.put(
                    list,
                    known.values().stream()
                            .map(one -> one.lines().get(list))
                            .filter(Objects::nonNull)
                            .sorted(WorkLine.DUE_FIRST)
                            .toList());
        }
        lists.put(WorkList.LETTERS, letters());
        return lists;
    }

    private List<WorkLine> letters() {
        var about = byId(
                referrals.of(undelivered.stream().map(Undelivered::referral).toList()),
                proposed -> proposed.referral().id());
        return undelivered.stream()
                .flatMap(one -> Optional.ofNullable(about.get(one.referral())).stream()
                        .flatMap(proposed ->
                                lines(proposed, Map.of(WorkList.LETTERS, NextSteps.letters(one))).values().stream()))
                .sorted(WorkLine.DUE_FIRST)
                .toList();
    }

    private void workOut(List<UnderWay> batch) {
        var days = chasing.days();
        var steps = new NextSteps(days, basis.today());
        var chased = chasing.of(batch.stream().map(UnderWay::id).toList());
        var drafts = proposed(batch);
        var cases = prepared(batch);
        for (var one : batch) {
            var state = chased.getOrDefault(one.id(), new ChasingState(one.id(), List.of(), List.of()));
            var lines = Optional.ofNullable(drafts.get(one.id()))
                    .map(draft -> lines(
                            draft,
                            steps.ofDraft(
                                    draft,
                                    Draft.of(draft.referral().document()).read(basis.today()),
                                    state,
                                    SafetyCalls.next(draft, state, days))))
                    .or(() -> Optional.ofNullable(cases.get(one.id()))
                            .map(prepared -> lines(
                                    prepared.proposed(),
                                    steps.of(
                                            prepared,
                                            one.decidedOn(),
                                            state,
                                            SafetyCalls.next(prepared.proposed(), state, days)))))
                    .orElse(Map.of());
            known.put(one.id(), new Known(one, lines));
        }
    }

    private Map<Long, ProposedCase> proposed(Collection<UnderWay> batch) {
        return byId(referrals.of(ids(batch, true)), draft -> draft.referral().id());
    }

    private Map<Long, PreparationCase> prepared(Collection<UnderWay> batch) {
        return byId(preparation.of(ids(batch, false)), PreparationCase::id);
    }

    private static List<Long> ids(Collection<UnderWay> batch, boolean drafts) {
        return batch.stream()
                .filter(one -> (one.state() == ReferralState.DRAFT) == drafts)
                .map(UnderWay::id)
                .toList();
    }

    private static <T> Map<Long, T> byId(List<T> all, Function<T, Long> id) {
        return all.stream().collect(Collectors.toMap(id, one -> one));
    }

    private static Map<WorkList, WorkLine> lines(ProposedCase proposed, Map<WorkList, WorkStep> steps) {
        var patient = proposed.document().patient();
        var name = Stream.of(patient.family(), patient.given())
                .flatMap(Optional::stream)
                .filter(part -> !part.isBlank())
                .collect(Collectors.joining(", "));
        var lines = new EnumMap<WorkList, WorkLine>(WorkList.class);
        steps.forEach((list, step) -> lines.put(
                list,
                new WorkLine(
                        proposed.referral().id(),
                        proposed.referral().reference(),
                        name,
                        patient.born(),
                        proposed.tier(),
                        proposed.targetDate(),
                        step)));
        return lines;
    }
}
