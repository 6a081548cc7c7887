package limbqueue.booking;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import limbqueue.triage.Tier;

/** Practices so small that every plan of theirs can be tried. The same seed gives the same practice. */
final class TinyPractice {

    static final LocalDate AS_OF = LocalDate.of(2026, 3, 2);
    static final LocalDate LAST_DAY = AS_OF.plusDays(24);

    private static final Tier[] TIERS = {
        Tier.WITHIN_5_DAYS, Tier.WITHIN_14_DAYS, Tier.WITHIN_14_DAYS, Tier.WITHIN_6_WEEKS, Tier.WITHIN_18_WEEKS
    };

    private final Random random;

    private TinyPractice(long seed) {
        random = new Random(seed);
    }

    static Waiting of(long seed) {
        var practice = new TinyPractice(seed);
        var sessions = practice.sessions();
        return new Waiting(AS_OF, LAST_DAY, sessions, practice.cases(sessions));
    }

    /** The same, with sessions that hold a third, a half or all of their minutes for urgent cases. */
    static Waiting holding(long seed) {
        var practice = of(seed);
        var random = new Random(seed ^ 0x4e1d);
        return new Waiting(
                practice.asOf(),
                practice.lastDay(),
                practice.sessions().stream()
                        .map(session -> session.holding(
                                new HeldTime(session.minutes() / (1 + random.nextInt(3)), random.nextInt(9))))
                        .toList(),
                practice.cases());
    }

    /** One session more, of whatever kind and on whatever day. */
    static Session another(long seed) {
        var practice = new TinyPractice(seed ^ 0x5eed);
        return practice.session("MORE", pick(practice.random, SessionKind.values()));
    }

    private List<Session> sessions() {
        var sessions = new ArrayList<Session>();
        // The procedure room and the clinic are always there, once or twice; the others now and then.
        for (var kind : List.of(SessionKind.PROCEDURE_ROOM, SessionKind.PROCEDURE_ROOM, SessionKind.CLINIC)) {
            sessions.add(session("S" + sessions.size(), kind));
        }
        while (sessions.size() < 4 + random.nextInt(2)) {
            sessions.add(session("S" + sessions.size(), pick(random, SessionKind.values())));
        }
        return sessions;
    }

    Session session(String id, SessionKind kind) {
        var date = AS_OF.plusDays(random.nextInt(-1, 25));
        var start = date.atTime(LocalTime.of(random.nextBoolean() ? 8 : 10, 0));
        var minutes = 60 * (1 + random.nextInt(4));
        var capabilities = EnumSet.noneOf(Capability.class);
        for (var capability : List.of(Capability.ARM_ACCESS, Capability.TRANSLATOR)) {
            if (random.nextInt(3) > 0) {
                capabilities.add(capability);
            }
        }
        return new Session(
                id, kind, start, start.plusMinutes(minutes), minutes, id, id, capabilities, random.nextInt(12) == 0);
    }

    private List<WaitingCase> cases(List<Session> sessions) {
        var cases = new ArrayList<WaitingCase>();
        for (var i = 0; i < 4; i++) {
            var tier = pick(random, TIERS);
            var target = AS_OF.plusDays(random.nextInt(
                    -3,
                    switch (tier) {
                        case WITHIN_5_DAYS -> 6;
                        case WITHIN_14_DAYS -> 15;
                        default -> 20;
                    }));
            var patient = i > 0 && random.nextInt(6) == 0 ? cases.getFirst().patient() : "P" + i;
            cases.add(new WaitingCase("C" + i, patient, tier, target, steps(sessions)));
        }
        return cases;
    }

    private List<Step> steps(List<Session> sessions) {
        var steps = new ArrayList<Step>();
        if (random.nextInt(4) == 0) {
            steps.add(step(StepKind.PRESSURES_AND_DUPLEX, sessions));
        }
        if (random.nextInt(2) == 0) {
            steps.add(step(StepKind.CLINIC, sessions));
        }
        steps.add(step(StepKind.PROCEDURE, sessions));
        return steps;
    }

    private Step step(StepKind kind, List<Session> sessions) {
        var median = 20 + random.nextInt(70);
        var ofKind = sessions.stream()
                .filter(session -> session.kind() == kind.session())
                .toList();
        var barred = new ArrayList<Barred>();
        if (random.nextInt(3) == 0) {
            barred.add(Barred.before(AS_OF.plusDays(random.nextInt(8)), "too early"));
        }
        if (random.nextInt(4) == 0) {
            var from = AS_OF.plusDays(random.nextInt(20));
            barred.add(Barred.days(from, from.plusDays(random.nextInt(4)), "away"));
        }
        return new Step(
                kind,
                new StepMinutes(median, median * (1 + random.nextDouble())),
                random.nextInt(4) == 0 ? Set.of(pick(random, Capability.ARM_ACCESS, Capability.TRANSLATOR)) : Set.of(),
                barred,
                random.nextInt(3),
                random.nextInt(4) == 0 ? Optional.of(3 + random.nextInt(12)) : Optional.empty(),
                random.nextInt(3) == 0 && !ofKind.isEmpty()
                        ? Optional.of(ofKind.get(random.nextInt(ofKind.size())).id())
                        : Optional.empty());
    }

    @SafeVarargs
    private static <T> T pick(Random random, T... answers) {
        return answers[random.nextInt(answers.length)];
    }
}
