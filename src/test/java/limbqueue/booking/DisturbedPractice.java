package limbqueue.booking;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.triage.Tier;

/**
 * A practice so small that every plan of it can be tried, with a plan that is kept, of which most patients have been told, and
 * something that happens to it. What that means is written down here anew, and shares no code with the planner. The same seed gives
 * the same practice.
 *
 * @param before who waits and the sessions, before it happens
 * @param after the same when it has happened
 */
record DisturbedPractice(Waiting before, KeptPlaces kept, Disruption disruption, Waiting after) {

    private static final LocalDate AS_OF = TinyPractice.AS_OF;

    static DisturbedPractice of(long seed) {
        var random = new Random(seed);
        var tiny = TinyPractice.of(seed);
        var sessions = new ArrayList<>(tiny.sessions());
        var start = AS_OF.atTime(13, 0);
        sessions.add(new Session(
                "TODAY",
                SessionKind.PROCEDURE_ROOM,
                start,
                start.plusMinutes(150),
                150,
                "TODAY",
                "TODAY",
                Set.of(Capability.ARM_ACCESS),
                false));
        var untold = new Waiting(
                AS_OF,
                tiny.lastDay(),
                sessions,
                tiny.cases().stream().map(one -> told(one, Map.of())).toList());
        var kept = KeptPlaces.of(Planner.plan(untold, Search.of(seed, 300)));
        var cases = untold.cases().stream()
                .map(one -> {
                    var told = new HashMap<>(kept.sessions().getOrDefault(one.reference(), Map.of()));
                    told.values().removeIf(_ -> random.nextInt(10) < 3);
                    return told(one, told);
                })
                .toList();
        var before = new Waiting(AS_OF, tiny.lastDay(), sessions, cases);
        var disruption = disruption(random, (int) (seed % 4), kept);
        return new DisturbedPractice(before, kept, disruption, after(before, disruption));
    }

    private static WaitingCase told(WaitingCase one, Map<StepKind, String> told) {
        return with(
                one,
                one.steps().stream()
                        .map(step -> new Step(
                                step.kind(),
                                step.minutes(),
                                step.needs(),
                                step.barred(),
                                step.daysAfterPrevious(),
                                step.countsDays(),
                                Optional.ofNullable(told.get(step.kind()))))
                        .toList());
    }

    private static WaitingCase with(WaitingCase one, List<Step> steps) {
        return new WaitingCase(one.reference(), one.patient(), one.tier(), one.target(), steps);
    }

    private static Disruption disruption(Random random, int kind, KeptPlaces kept) {
        var references = kept.sessions().keySet().stream().sorted().toList();
        if (kind == 0 || references.isEmpty()) {
            return new Emergency("EMERGENCY", 60 + 30 * random.nextInt(3), Set.of());
        }
        var reference = references.get(random.nextInt(references.size()));
        var used =
                new HashSet<>(kept.sessions().getOrDefault(reference, Map.of()).values());
        var session = used.stream().sorted().findFirst().orElseThrow();
        var from = AS_OF.atStartOfDay();
        return switch (kind) {
            case 1 -> new OperatorAway(session, from, from.plusDays(30), "the operator is ill");
            case 2 -> new PlaceDown(session, from, from.plusDays(30), "the machine is down");
            default -> new PatientCancels(reference, from, from.plusDays(3 + random.nextInt(20)));
        };
    }

    private static Waiting after(Waiting before, Disruption disruption) {
        var sessions = new ArrayList<>(before.sessions());
        var cases = new ArrayList<>(before.cases());
        switch (disruption) {
            case Emergency(var reference, var minutes, var needs) ->
                cases.add(new WaitingCase(
                        reference,
                        reference,
                        Tier.SAME_DAY,
                        AS_OF,
                        List.of(new Step(
                                StepKind.PROCEDURE,
                                new StepMinutes(minutes, minutes),
                                needs,
                                List.of(Barred.after(AS_OF, "today")),
                                0,
                                Optional.empty(),
                                Optional.empty()))));
            case OperatorAway away -> sessions.replaceAll(one -> close(one, away.operator()));
            case PlaceDown down -> sessions.replaceAll(one -> close(one, down.place()));
            case PatientCancels(var reference, var from, var until) ->
                cases.replaceAll(one -> one.reference().equals(reference)
                        ? with(
                                one,
                                one.steps().stream()
                                        .map(step -> {
                                            var barred = new ArrayList<>(step.barred());
                                            barred.add(new Barred(from, until, "away"));
                                            return new Step(
                                                    step.kind(),
                                                    step.minutes(),
                                                    step.needs(),
                                                    barred,
                                                    step.daysAfterPrevious(),
                                                    step.countsDays(),
                                                    step.told());
                                        })
                                        .toList())
                        : one);
        }
        return new Waiting(AS_OF, before.lastDay(), sessions, cases);
    }

    private static Session close(Session one, String whose) {
        return one.id().equals(whose) ? one.closedFor("gone") : one;
    }
}
