package limbqueue.bench;

import com.google.ortools.Loader;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import limbqueue.booking.GeneratedPractice;
import limbqueue.booking.HandJudge;
import limbqueue.booking.Lateness;
import limbqueue.booking.Plan;
import limbqueue.booking.PlanRule;
import limbqueue.booking.Planner;
import limbqueue.booking.Rivals;
import limbqueue.booking.Search;
import limbqueue.booking.Session;
import limbqueue.booking.Waiting;

/** How good plans are, beside the exact optimum and beside booking one after the other, and how long they take. */
public final class PlanBenchmark {

    private static final List<String> LEVELS = List.of("5 days", "14 days", "overrun", "lateness", "told", "idle");
    private static final int LATENESS = LEVELS.indexOf("lateness");

    /** It is proved up to every so many-th day with sessions how late cases must be, in at most so many seconds each. */
    private static final int SESSION_DAYS_BETWEEN_PROOFS = 2;

    private static final int PROOF_SECONDS = 40;

    private static final int PROOF_SECONDS_OF_THE_WHOLE = 300;

    /** So that with its beginning and its reasons the plan is there in 30 seconds. */
    private static final Duration SEARCH = Duration.ofSeconds(27);

    /** Steps of the search, and sizes of the practices, where both are small enough for the optimum to be proved. */
    private static final int STEPS = Integer.getInteger("plan.steps", 12_000_000);

    private static final List<String> LISTS =
            List.of(System.getProperty("plan.lists", "with room,steady,at once").split(",", -1));

    private static final List<Integer> CASES = Arrays.stream(
                    System.getProperty("plan.cases", "20,40").split(",", -1))
            .map(Integer::valueOf)
            .toList();

    /** Of a practice of 300 cases about as many as the time is for. */
    private static final int LARGE_STEPS = 1_000_000;
    /** A little more than {@link #SEARCH} has time for: how a search shares its time goes by its steps. */
    private static final int STEPS_OF_300 = 6_000_000;

    private PlanBenchmark() {}

    /**
     * @param arguments {@code plan-exact}, {@code plan-bound}, {@code plan-rivals}, {@code plan-growth}, {@code plan-anew}, or
     *     {@code plan} for all
     */
    public static void main(String[] arguments) {
        var part = arguments[0];
        if (part.equals("plan") || part.equals("plan-exact")) {
            exact();
        }
        if (part.equals("plan") || part.equals("plan-bound")) {
            bound();
        }
        if (part.equals("plan") || part.equals("plan-rivals")) {
            rivals();
        }
        if (part.equals("plan") || part.equals("plan-growth")) {
            growth();
        }
        if (part.equals("plan") || part.equals("plan-anew")) {
            ReplanBenchmark.run();
        }
    }

    private static long[] levels(Plan plan) {
        return plan.levels().stream().skip(1).mapToLong(Plan.LevelScore::points).toArray();
    }

    private static double seconds(long begin) {
        return (System.nanoTime() - begin) / (double) TimeUnit.SECONDS.toNanos(1);
    }

    /** The plan that was found, checked by hand. */
    private static Plan plan(Waiting waiting, Search search) {
        var plan = Planner.plan(waiting, search);
        var judge = new HandJudge(waiting);
        var places = HandJudge.placesOf(waiting, plan);
        if (!judge.impossible(places).isEmpty() || !Arrays.equals(judge.levels(places), levels(plan))) {
            throw new IllegalStateException("the plan is not what it says: " + judge.impossible(places));
        }
        return plan;
    }

    private static void exact() {
        Loader.loadNativeLibraries();
        System.out.println("Plan and exact optimum by CP-SAT, level by level");
        for (var cases : CASES) {
            for (var seed = 1; seed <= 3; seed++) {
                var waiting = GeneratedPractice.of(seed, cases);
                var begin = System.nanoTime();
                var plan = levels(plan(waiting, Search.of(1, STEPS)));
                var planSeconds = seconds(begin);
                begin = System.nanoTime();
                var best = new ExactPlan(waiting).best(120);
                var equal = true;
                for (var level = 0; level < LEVELS.size(); level++) {
                    equal &= plan[level] == best.get(level).value();
                    System.out.printf(
                            Locale.ROOT,
                            "%3d cases, seed %d, %-8s plan %,12d, exact %,12d (%s)%n",
                            cases,
                            seed,
                            LEVELS.get(level),
                            plan[level],
                            best.get(level).value(),
                            best.get(level).proved()
                                    ? "proved"
                                    : "not proved, at least " + best.get(level).bound());
                }
                System.out.printf(
                        Locale.ROOT,
                        "%3d cases, seed %d: goal equal at every level, %s; plan %.1f s, exact %.1f s%n",
                        cases,
                        seed,
                        equal ? "met" : "NOT met",
                        planSeconds,
                        seconds(begin));
            }
        }
    }

    private static void bound() {
        Loader.loadNativeLibraries();
        System.out.println("Weighted days late of the plan, and the least that they can be while the levels before stay as in the plan");
        for (var list : LISTS) {
            for (var seed = 1; seed <= 3; seed++) {
                bound(list, seed, practice(list, seed, 300));
            }
        }
    }

    private static Waiting practice(String list, int seed, int cases) {
        return switch (list) {
            case "with room" -> GeneratedPractice.withRoom(seed, cases);
            case "steady" -> GeneratedPractice.steady(seed, cases);
            case "at once" -> GeneratedPractice.of(seed, cases);
            default -> throw new IllegalArgumentException("no list is called " + list);
        };
    }

    private static void bound(String list, int seed, Waiting waiting) {
        var begin = System.nanoTime();
        var plan = plan(waiting, new Search(1, STEPS_OF_300, Optional.of(SEARCH)));
        var planSeconds = seconds(begin);
        var levels = levels(plan);
        var rules = new ArrayList<Consumer<ExactPlan>>();
        for (var level = 0; level < LATENESS; level++) {
            var kept = level;
            rules.add(of -> of.keep(kept, levels[kept]));
        }
        begin = System.nanoTime();
        var bound = boundLateness(waiting, levels[LATENESS], rules);
        if (bound > levels[LATENESS]) {
            throw new IllegalStateException(
                    "%d is found where %d is proved to be the least".formatted(levels[LATENESS], bound));
        }
        var over = levels[LATENESS] / (double) Math.max(1, bound) - 1;
        System.out.printf(
                Locale.ROOT,
                "300 cases, %-9s, seed %d: plan in %.1f s %s; late %,d, at least %,d by CP-SAT (%.0f s): %.2f %% over"
                        + " the bound, goal 1 %%, %s%n",
                list,
                seed,
                planSeconds,
                Arrays.toString(levels),
                levels[LATENESS],
                bound,
                seconds(begin),
                100 * over,
                over <= 0.01 ? "met" : "NOT met");
    }

    /**
     * By how many weighted days cases must at least be late, as far as CP-SAT proves it. It is asked how late they are up to one day after
     * the other first: what is near is small enough for a proof, and what has been proved is a rule for what comes behind it.
     *
     * @param most by how many they are in the plan
     * @param rules what is settled before
     */
    private static long boundLateness(Waiting waiting, long most, List<Consumer<ExactPlan>> rules) {
        var days = days(waiting);
        var least = 0L;
        for (var i = 1; i < days.size() && least < most; i += SESSION_DAYS_BETWEEN_PROOFS) {
            var day = days.get(i);
            var until = ExactPlan.upTo(waiting, day);
            var before = least;
            // As if last steps alone took time it is proved in far less; with all steps, now and then, a little more.
            for (var of : List.of(ExactPlan.lastSteps(until), until)) {
                var exact = ExactPlan.goingOn(of);
                rules.forEach(rule -> rule.accept(exact));
                var points = exact.proved(LATENESS, PROOF_SECONDS);
                if (points > least) {
                    least = points;
                    rules.add(each -> each.lateAtLeast(day, points));
                }
            }
            if (before > 0 && least == before) {
                break;
            }
        }
        if (least == most) {
            return least;
        }
        var whole = new ExactPlan(ExactPlan.lastSteps(waiting));
        rules.forEach(rule -> rule.accept(whole));
        whole.withoutPlaceAtLeast(whole.leastWithoutPlace(PROOF_SECONDS));
        return Math.max(least, whole.proved(LATENESS, PROOF_SECONDS_OF_THE_WHOLE));
    }

    /** On which there are sessions, in their order. */
    private static List<LocalDate> days(Waiting waiting) {
        return waiting.sessions().stream().map(Session::date).distinct().sorted().toList();
    }

    private static void rivals() {
        System.out.println(
                "Target dates broken (places missing count), of cases promised 5 days, 14 days, the rest; weighted days late");
        for (var cases : List.of(40, 100, 300)) {
            for (var seed = 1; seed <= 3; seed++) {
                for (var list : List.of("steady", "at once")) {
                    rivals(list, cases, seed, practice(list, seed, cases));
                }
            }
        }
    }

    private static void rivals(String list, int cases, int seed, Waiting waiting) {
        var practice = "%3d cases, %-7s, seed %d".formatted(cases, list, seed);
        print(practice, "first come", waiting, Rivals.firstComeFirstServed(waiting));
        print(practice, "tier, date", waiting, Rivals.tierThenDate(waiting));
        var plan = plan(waiting, new Search(1, LARGE_STEPS, Optional.of(SEARCH)));
        print(practice, "plan", waiting, HandJudge.placesOf(waiting, plan));
    }

    private static void print(String practice, String name, Waiting waiting, int[][] places) {
        var broken = new int[3];
        for (var c = 0; c < places.length; c++) {
            var of = waiting.cases().get(c);
            var last = places[c][places[c].length - 1];
            if (last == HandJudge.NONE || waiting.sessions().get(last).date().isAfter(of.target())) {
                broken[
                        switch (of.tier()) {
                            case SAME_DAY, WITHIN_5_DAYS -> 0;
                            case WITHIN_14_DAYS -> 1;
                            default -> 2;
                        }]++;
            }
        }
        System.out.printf(
                Locale.ROOT,
                "%s, %-10s  5 days %3d  14 days %3d  rest %3d  weighted days %,7d%n",
                practice,
                name,
                broken[0],
                broken[1],
                broken[2],
                new HandJudge(waiting).levels(places)[3]);
    }

    private static void growth() {
        var times = new ArrayList<Double>();
        for (var cases : List.of(100, 300, 1_000, 3_000)) {
            var waiting = GeneratedPractice.of(1, cases);
            var begin = System.nanoTime();
            var plan = plan(waiting, Search.of(1, 200_000));
            times.add(seconds(begin));
            System.out.printf(
                    Locale.ROOT,
                    "%,5d cases, %,5d sessions, 200,000 steps: %.1f s; levels %s%n",
                    cases,
                    waiting.sessions().size(),
                    times.getLast(),
                    Arrays.toString(levels(plan)));
        }
        System.out.printf(
                Locale.ROOT,
                "from 100 to 3,000 cases the time grows by a factor of %.1f%n",
                times.getLast() / times.getFirst());
    }
}
