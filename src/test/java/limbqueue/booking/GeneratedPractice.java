package limbqueue.booking;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import limbqueue.triage.Tier;

/**
 * Practices with so many cases and a little fewer places than those need, so that something has to give. Either all of them have come
 * at once, as after a long closure, or the list is as a steady stream leaves it: of each tier as many wait as come in the days promised
 * to it (J. D. C. Little, A proof for the queuing formula L = lambda W, Operations Research 9, 1961, 383-387; value from memory), and
 * each has waited some of them already. Times of steps are a few
 * kinds, so that the exact solver can write down what each mix of them does to a session. The same seed gives the same practice.
 */
public final class GeneratedPractice {

    public static final LocalDate AS_OF = LocalDate.of(2026, 3, 2);

    private static final double WITH_ROOM = 1.4;

    private static final List<StepMinutes> PROCEDURES = List.of(
            new StepMinutes(60, 90), new StepMinutes(90, 135), new StepMinutes(120, 190), new StepMinutes(150, 250));
    private static final StepMinutes DUPLEX = new StepMinutes(40, 55);
    private static final StepMinutes CTA = new StepMinutes(25, 35);
    private static final StepMinutes CLINIC = new StepMinutes(25, 40);

    /** Of ten who come. */
    private static final Map<Tier, Integer> SHARES = new TreeMap<>(
            Map.of(Tier.WITHIN_5_DAYS, 1, Tier.WITHIN_14_DAYS, 3, Tier.WITHIN_6_WEEKS, 3, Tier.WITHIN_18_WEEKS, 3));

    private final Random random;
    private final int cases;
    private final int weeks;
    private final boolean steady;
    private final double room;
    private final List<Session> sessions = new ArrayList<>();

    private GeneratedPractice(long seed, int cases, boolean steady, double room) {
        this.random = new Random(seed);
        this.cases = cases;
        this.steady = steady;
        this.room = room;
        this.weeks = Math.clamp(cases / 10, 3, 12);
    }

    /** Everybody has come at once: three of ten have been promised 14 days, one of ten 5. */
    public static Waiting of(long seed, int cases) {
        return new GeneratedPractice(seed, cases, false, 1).waiting();
    }

    /** Of the same tiers as many come, but who has been promised fewer days waits for fewer. */
    public static Waiting steady(long seed, int cases) {
        return new GeneratedPractice(seed, cases, true, 1).waiting();
    }

    /** As a steady stream leaves it, with {@value #WITH_ROOM} times as many sessions: nearly everybody comes in time. */
    public static Waiting withRoom(long seed, int cases) {
        return new GeneratedPractice(seed, cases, true, WITH_ROOM).waiting();
    }

    private Waiting waiting() {
        sessions(SessionKind.PROCEDURE_ROOM, (int) Math.ceil(cases * room / 3.3), 8, 480);
        sessions(SessionKind.CLINIC, (int) Math.ceil(cases * room / 5.0), 9, 210);
        sessions(SessionKind.VASCULAR_LABORATORY, (int) Math.ceil(cases * room / 5.0), 8, 240);
        sessions(SessionKind.CT, (int) Math.ceil(cases * room / 6.0), 14, 120);
        var waiting = new ArrayList<WaitingCase>();
        for (var i = 0; i < cases; i++) {
            waiting.add(waitingCase(i));
        }
        return Waiting.untilTheLastSession(AS_OF, sessions, waiting);
    }

    private void sessions(SessionKind kind, int count, int hour, int minutes) {
        for (var i = 0; i < count; i++) {
            // Spread evenly over the working days.
            var workingDay = 1 + (int) ((long) i * (weeks * 5 - 1) / count);
            var date = AS_OF.plusDays(workingDay / 5 * 7L + workingDay % 5);
            var has = EnumSet.noneOf(Capability.class);
            if (random.nextInt(5) < 3) {
                has.add(Capability.ARM_ACCESS);
            }
            var start = date.atTime(hour, 0);
            var id = kind + "-" + i;
            sessions.add(new Session(id, kind, start, start.plusMinutes(minutes), minutes, id, id, has, false));
        }
    }

    private WaitingCase waitingCase(int number) {
        var tier = tier();
        var days = steady
                ? 1 + random.nextInt(promised(tier))
                : switch (tier) {
                    case WITHIN_5_DAYS -> 5 - random.nextInt(2);
                    case WITHIN_14_DAYS -> 14 - random.nextInt(6);
                    case WITHIN_6_WEEKS -> 42 - random.nextInt(30);
                    default -> 126 - random.nextInt(110);
                };
        var steps = new ArrayList<Step>();
        if (tier == Tier.WITHIN_5_DAYS || random.nextInt(10) < 6) {
            steps.add(step(StepKind.PRESSURES_AND_DUPLEX, DUPLEX, Set.of(), List.of(), 0));
        }
        if (random.nextInt(10) < 3) {
            steps.add(step(StepKind.CTA, CTA, Set.of(), List.of(), 0));
        }
        steps.add(step(StepKind.CLINIC, CLINIC, Set.of(), List.of(), 0));
        steps.add(step(
                StepKind.PROCEDURE,
                PROCEDURES.get(random.nextInt(PROCEDURES.size())),
                random.nextInt(5) == 0 ? Set.of(Capability.ARM_ACCESS) : Set.of(),
                List.of(Barred.before(AS_OF.plusDays(2), "blood tests")),
                0));
        return new WaitingCase("C%05d".formatted(number), "P" + number, tier, AS_OF.plusDays(days), steps);
    }

    private Tier tier() {
        var among = SHARES.values().stream().mapToInt(Integer::intValue).sum();
        if (steady) {
            among = SHARES.entrySet().stream()
                    .mapToInt(share -> share.getValue() * promised(share.getKey()))
                    .sum();
        }
        var draw = random.nextInt(among);
        for (var share : SHARES.entrySet()) {
            draw -= share.getValue() * (steady ? promised(share.getKey()) : 1);
            if (draw < 0) {
                return share.getKey();
            }
        }
        throw new IllegalStateException("more was drawn than there is");
    }

    /** The days promised to {@code tier}. */
    private static int promised(Tier tier) {
        return switch (tier) {
            case SAME_DAY -> 1;
            case WITHIN_5_DAYS -> 5;
            case WITHIN_14_DAYS -> 14;
            case WITHIN_6_WEEKS -> 42;
            case WITHIN_18_WEEKS, ADVICE_ONLY -> 126;
        };
    }

    private Step step(StepKind kind, StepMinutes minutes, Set<Capability> needs, List<Barred> gates, int after) {
        var barred = new ArrayList<>(gates);
        if (random.nextInt(8) == 0) {
            var from = AS_OF.plusDays(random.nextInt(weeks * 7));
            barred.add(Barred.days(from, from.plusDays(random.nextInt(10)), "away"));
        }
        var early = sessions.stream()
                .filter(session ->
                        session.kind() == kind.session() && session.date().isBefore(AS_OF.plusDays(21)))
                .toList();
        var told = random.nextInt(10) == 0 && !early.isEmpty()
                ? Optional.of(early.get(random.nextInt(early.size())).id())
                : Optional.<String>empty();
        return new Step(kind, minutes, needs, barred, after, Optional.empty(), told);
    }
}
