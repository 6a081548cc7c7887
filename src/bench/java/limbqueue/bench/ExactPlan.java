package limbqueue.bench;

import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.ToLongFunction;
import java.util.stream.IntStream;
import limbqueue.booking.Barred;
import limbqueue.booking.Lateness;
import limbqueue.booking.PlanRule;
import limbqueue.booking.Session;
import limbqueue.booking.Step;
import limbqueue.booking.StepMinutes;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
import limbqueue.triage.Tier;

/**
 * The best plan there is, level by level, found and proved by CP-SAT. A model of its own: it shares with the planner what is to be
 * planned and the numbers in it, and none of its rules. Cases are of different patients and results do not run out.
 */
final class ExactPlan {

    static final int LEVELS = 6;

    private static final int PROMISES = 2;
    /** More than there are processors: with 8 the solver tries ways of bounding that it leaves out with fewer. */
    private static final int WORKERS = 8;

    /** What was found at one level: the best value, and the least that it could be. */
    record Found(long value, long bound) {
        boolean proved() {
            return value == bound;
        }
    }

    private final Waiting waiting;
    /** Whether what has no place may yet come later than the last day, and is as late as that day until then. */
    private final boolean goesOn;

    private final CpModel model = new CpModel();
    /** For each case, each step: the choice of each session that can take it, by the session's place in the list. */
    private final List<List<Map<Integer, BoolVar>>> choices = new ArrayList<>();
    /** For each case, each step: that it has none. */
    private final List<List<BoolVar>> nowhere = new ArrayList<>();
    /** For each session, by its place in the list: its mixes, each as how many of each time it holds. */
    private final Map<Integer, Map<Map<StepMinutes, Long>, BoolVar>> held = new TreeMap<>();

    /** What each level minimizes, one after the other: of promises first how many are broken, then by how many days. */
    private final List<List<LinearExpr>> levels = new ArrayList<>();

    ExactPlan(Waiting waiting) {
        this(waiting, false);
    }

    private ExactPlan(Waiting waiting, boolean goesOn) {
        this.waiting = waiting;
        this.goesOn = goesOn;
        choose();
        var points = new ArrayList<LinearExprBuilder>();
        var broken = new ArrayList<LinearExprBuilder>();
        for (var i = 0; i < LEVELS; i++) {
            points.add(LinearExpr.newBuilder());
            broken.add(LinearExpr.newBuilder());
        }
        weigh(points, broken);
        fill();
        points.get(2).add(overrun());
        for (var i = 0; i < LEVELS; i++) {
            levels.add(
                    i < PROMISES
                            ? List.of(broken.get(i).build(), points.get(i).build())
                            : List.of(points.get(i).build()));
        }
    }

    /**
     * What {@code waiting} is until {@code day}: no plan of the whole is better there at any level than the best of this. Who has been
     * promised nothing and cannot be late by then need not come and is left out.
     */
    static Waiting upTo(Waiting waiting, LocalDate day) {
        var sessions = waiting.sessions().stream()
                .filter(session -> !session.date().isAfter(day))
                .toList();
        var cases = waiting.cases().stream()
                .filter(one -> promised(one) || one.target().isBefore(day))
                .toList();
        return new Waiting(waiting.asOf(), day, sessions, cases, waiting.zone());
    }

    /** {@code waiting} where what has no place may yet come later than the last day, and is as late as that day until then. */
    static ExactPlan goingOn(Waiting waiting) {
        return new ExactPlan(waiting, true);
    }

    /** {@code waiting} as if only last steps took time in sessions: no plan is better at any level than the best of this. */
    static Waiting lastSteps(Waiting waiting) {
        var cases = waiting.cases().stream()
                .map(one -> lastStep(one, waiting.sessions(), waiting.asOf()))
                .toList();
        return new Waiting(waiting.asOf(), waiting.lastDay(), waiting.sessions(), cases, waiting.zone());
    }

    /** {@code of} as its last step alone, at no time at which those before it cannot be over. */
    private static WaitingCase lastStep(WaitingCase of, List<Session> sessions, LocalDate asOf) {
        var free = asOf.atStartOfDay();
        for (var s = 0; s < of.steps().size() - 1; s++) {
            var step = of.steps().get(s);
            var from = free;
            var days = of.steps().get(s + 1).daysAfterPrevious();
            free = sessions.stream()
                    .filter(session -> !session.start().isBefore(from) && takes(step, session, asOf))
                    .map(session -> Collections.max(List.of(
                            session.end(), session.date().plusDays(days).atStartOfDay())))
                    .min(Comparator.naturalOrder())
                    .orElse(LocalDateTime.MAX);
        }
        var last = of.steps().getLast();
        var barred = new ArrayList<>(last.barred());
        barred.add(new Barred(asOf.atStartOfDay(), free, "those before it"));
        return new WaitingCase(
                of.reference(),
                of.patient(),
                of.tier(),
                of.target(),
                List.of(new Step(last.kind(), last.minutes(), last.needs(), barred, 0, last.countsDays(), last.told())));
    }

    private static boolean promised(WaitingCase of) {
        return Lateness.levelOf(of.tier()) != PlanRule.Level.LATENESS;
    }

    private void choose() {
        for (var of : waiting.cases()) {
            var steps = new ArrayList<Map<Integer, BoolVar>>();
            var without = new ArrayList<BoolVar>();
            Map<Integer, BoolVar> before = Map.of();
            for (var s = 0; s < of.steps().size(); s++) {
                var step = of.steps().get(s);
                var choice = new LinkedHashMap<Integer, BoolVar>();
                for (var t = 0; t < waiting.sessions().size(); t++) {
                    if (takes(step, waiting.sessions().get(t), waiting.asOf())) {
                        choice.put(t, model.newBoolVar(""));
                    }
                }
                var none = model.newBoolVar("");
                without.add(none);
                var all = new ArrayList<>(choice.values());
                all.add(none);
                model.addExactlyOne(all.toArray(BoolVar[]::new));
                var upTo = upTo(choice);
                if (s > 0) {
                    follow(step, upTo, before);
                }
                before = upTo;
                steps.add(choice);
            }
            choices.add(steps);
            nowhere.add(without);
        }
    }

    private static boolean takes(Step step, Session session, LocalDate asOf) {
        return session.kind() == step.kind().session()
                && !session.closed()
                && !session.date().isBefore(asOf)
                && session.capabilities().containsAll(step.needs())
                && step.barred().stream()
                        .noneMatch(bar -> bar.from().isBefore(session.end())
                                && bar.until().isAfter(session.start()));
    }

    /** For each session of {@code choice}, by time, that it or one before it is chosen: few terms in each row, however many sessions. */
    private Map<Integer, BoolVar> upTo(Map<Integer, BoolVar> choice) {
        var upTo = new LinkedHashMap<Integer, BoolVar>();
        BoolVar last = null;
        for (var t : byTime(choice.keySet())) {
            var here = model.newBoolVar("");
            var sum = LinearExpr.newBuilder().add(choice.get(t));
            if (last != null) {
                sum.add(last);
            }
            model.addEquality(here, sum);
            upTo.put(t, here);
            last = here;
        }
        return upTo;
    }

    private List<Integer> byTime(Collection<Integer> sessions) {
        return sessions.stream()
                .sorted(Comparator.comparing(t -> waiting.sessions().get(t).start()))
                .toList();
    }

    /**
     * Up to any session no step is chosen unless the step before it is, in a session out of which that one can still be reached. Said
     * of all sessions up to one instead of each alone, which means the same and bounds what the solver must look at far better. Sessions
     * of a kind end in the order in which they begin.
     */
    private void follow(Step step, Map<Integer, BoolVar> upTo, Map<Integer, BoolVar> before) {
        var earlier = new ArrayDeque<>(before.entrySet());
        BoolVar reached = null;
        for (var one : upTo.entrySet()) {
            var session = waiting.sessions().get(one.getKey());
            while (!earlier.isEmpty()) {
                var there = waiting.sessions().get(earlier.element().getKey());
                if (there.end().isAfter(session.start())
                        || ChronoUnit.DAYS.between(there.date(), session.date()) < step.daysAfterPrevious()) {
                    break;
                }
                reached = earlier.remove().getValue();
            }
            if (reached == null) {
                model.addEquality(one.getValue(), 0);
            } else {
                model.addImplication(one.getValue(), reached);
            }
        }
    }

    private void weigh(List<LinearExprBuilder> points, List<LinearExprBuilder> broken) {
        for (var c = 0; c < choices.size(); c++) {
            var of = waiting.cases().get(c);
            var level = switch (Lateness.levelOf(of.tier())) {
                case PROMISES_OF_5_DAYS -> 0;
                case PROMISES_OF_14_DAYS -> 1;
                default -> 3;
            };
            var late = points.get(level);
            var weight = weight(of);
            var atTheEnd = daysLate(of.target(), waiting.lastDay());
            for (var s = 0; s < choices.get(c).size(); s++) {
                var last = s == choices.get(c).size() - 1;
                var step = of.steps().get(s);
                var none = nowhere.get(c).get(s);
                if (last) {
                    late.addTerm(none, weight * ((goesOn ? 0 : 28) + atTheEnd));
                    if (!goesOn || atTheEnd > 0) {
                        broken.get(level).add(none);
                    }
                } else if (!goesOn) {
                    late.addTerm(none, 7 * weight);
                }
                choices.get(c).get(s).forEach((t, chosen) -> {
                    var date = waiting.sessions().get(t).date();
                    if (last && date.isAfter(of.target())) {
                        late.addTerm(chosen, weight * daysLate(of.target(), date));
                        broken.get(level).add(chosen);
                    }
                    points.get(5)
                            .addTerm(chosen, step.minutes().expected() * ChronoUnit.DAYS.between(waiting.asOf(), date));
                });
            }
            told(c, points.get(4));
        }
    }

    private static long weight(WaitingCase of) {
        return of.tier() == Tier.WITHIN_6_WEEKS ? 3 : 1;
    }

    private static long daysLate(LocalDate target, LocalDate day) {
        return Math.max(0, ChronoUnit.DAYS.between(target, day));
    }

    private void told(int c, LinearExprBuilder level) {
        var steps = waiting.cases().get(c).steps();
        for (var s = 0; s < steps.size(); s++) {
            var told = steps.get(s).told();
            if (told.isPresent()) {
                level.add(1);
                choices.get(c).get(s).forEach((t, chosen) -> {
                    if (waiting.sessions().get(t).id().equals(told.get())) {
                        level.addTerm(chosen, -1);
                    }
                });
            }
        }
    }

    /**
     * Each session holds one of the mixes of times that fit into it, and lacks the minutes of that mix. Each mix is a choice of its
     * own, since the solver bounds what is linear.
     */
    private void fill() {
        var kinds = new TreeMap<Integer, Map<StepMinutes, LinearExprBuilder>>();
        for (var c = 0; c < choices.size(); c++) {
            for (var s = 0; s < choices.get(c).size(); s++) {
                var minutes = waiting.cases().get(c).steps().get(s).minutes();
                choices.get(c).get(s).forEach((t, chosen) -> kinds.computeIfAbsent(t, _ -> new LinkedHashMap<>())
                        .computeIfAbsent(minutes, _ -> LinearExpr.newBuilder())
                        .add(chosen));
            }
        }
        kinds.forEach((t, ofSession) -> {
            var minutes = waiting.sessions().get(t).minutes();
            var times = List.copyOf(ofSession.keySet());
            var mixed = new LinkedHashMap<Map<StepMinutes, Long>, BoolVar>();
            for (var mix : mixes(minutes, times, new long[times.size()], 0, 0)) {
                var chosen = model.newBoolVar("");
                var counts = new HashMap<StepMinutes, Long>();
                for (var i = 0; i < times.size(); i++) {
                    ofSession.get(times.get(i)).addTerm(chosen, -mix[i]);
                    if (mix[i] > 0) {
                        counts.put(times.get(i), mix[i]);
                    }
                }
                mixed.put(counts, chosen);
            }
            held.put(t, mixed);
            model.addExactlyOne(mixed.values().toArray(BoolVar[]::new));
            ofSession.values().forEach(balance -> model.addEquality(balance, 0));
        });
    }

    /** The minutes by which sessions would have to be longer. */
    private LinearExpr overrun() {
        var overrun = LinearExpr.newBuilder();
        held.forEach((t, mixed) -> mixed.forEach((mix, chosen) -> overrun.addTerm(
                chosen,
                StepMinutes.overrun(
                        sum(mix, StepMinutes::expected),
                        sum(mix, StepMinutes::variance),
                        waiting.sessions().get(t).minutes()))));
        return overrun.build();
    }

    private static long sum(Map<StepMinutes, Long> mix, ToLongFunction<StepMinutes> of) {
        return mix.entrySet().stream()
                .mapToLong(times -> times.getValue() * of.applyAsLong(times.getKey()))
                .sum();
    }

    /** What {@code level}, not one of promises, comes to at least, as far as that is proved in {@code seconds}. */
    long proved(int level, double seconds) {
        return proved(levels.get(level).getFirst(), seconds);
    }

    private long proved(LinearExpr goal, double seconds) {
        var solver = new CpSolver();
        var status = solve(solver, goal, seconds);
        if (status == CpSolverStatus.INFEASIBLE || status == CpSolverStatus.MODEL_INVALID) {
            throw new IllegalStateException("there is no such plan: " + status);
        }
        // A bound is proved even where no plan was found in time.
        return Math.max(0, bound(solver));
    }

    /** How many cases must at least be without a place, as far as that is proved in {@code seconds}. */
    long leastWithoutPlace(double seconds) {
        return proved(withoutPlace(), seconds);
    }

    /** The same, said as a rule. */
    void withoutPlaceAtLeast(long cases) {
        model.addGreaterOrEqual(withoutPlace(), cases);
    }

    private LinearExpr withoutPlace() {
        return LinearExpr.sum(nowhere.stream().map(List::getLast).toArray(BoolVar[]::new));
    }

    /** The weighted days up to {@code day} by which those who have been promised nothing are late. */
    private LinearExpr late(LocalDate day) {
        var late = LinearExpr.newBuilder();
        for (var c = 0; c < choices.size(); c++) {
            var of = waiting.cases().get(c);
            if (!promised(of)) {
                late.addTerm(nowhere.get(c).getLast(), weight(of) * daysLate(of.target(), day));
                choices.get(c).getLast().forEach((t, chosen) -> {
                    var date = waiting.sessions().get(t).date();
                    late.addTerm(chosen, weight(of) * daysLate(of.target(), date.isAfter(day) ? day : date));
                });
            }
        }
        return late.build();
    }

    /** Says as a rule that the days late up to {@code day} come to so many at least, as {@link #upTo} of that day has proved. */
    void lateAtLeast(LocalDate day, long points) {
        model.addGreaterOrEqual(late(day), points);
    }

    private static List<long[]> mixes(
            int minutes, List<StepMinutes> times, long[] mix, int from, long expected) {
        var found = new ArrayList<long[]>();
        if (from == times.size()) {
            found.add(mix.clone());
            return found;
        }
        var time = times.get(from);
        for (var count = 0L; expected + count * time.expected() <= minutes; count++) {
            mix[from] = count;
            found.addAll(mixes(minutes, times, mix, from + 1, expected + count * time.expected()));
        }
        return found;
    }

    /**
     * The best of {@code level} with what was found for those before it, which is kept from here on.
     *
     * @param seconds for each of its goals
     */
    Found best(int level, double seconds) {
        var value = 0L;
        var bound = 0L;
        for (var goal : levels.get(level)) {
            var found = least(goal, seconds);
            model.addLessOrEqual(goal, found.value());
            value = value * Lateness.BROKEN_PROMISE + found.value();
            bound = bound * Lateness.BROKEN_PROMISE + found.bound();
        }
        return new Found(value, bound);
    }

    private Found least(LinearExpr goal, double seconds) {
        var solver = new CpSolver();
        var status = solve(solver, goal, seconds);
        if (status != CpSolverStatus.OPTIMAL && status != CpSolverStatus.FEASIBLE) {
            throw new IllegalStateException("nothing was found in " + seconds + " s: " + status);
        }
        return new Found(Math.round(solver.objectiveValue()), bound(solver));
    }

    private CpSolverStatus solve(CpSolver solver, LinearExpr goal, double seconds) {
        model.minimize(goal);
        solver.getParameters().setMaxTimeInSeconds(seconds).setRandomSeed(1).setNumWorkers(WORKERS);
        return solver.solve(model);
    }

    private static long bound(CpSolver solver) {
        return (long) Math.ceil(solver.bestObjectiveBound() - 1e-6);
    }

    /** Keeps {@code level} at {@code points}, or below. */
    void keep(int level, long points) {
        var goals = levels.get(level);
        if (level < PROMISES) {
            model.addLessOrEqual(goals.getFirst(), points / Lateness.BROKEN_PROMISE);
            model.addLessOrEqual(goals.getLast(), points % Lateness.BROKEN_PROMISE);
        } else {
            model.addLessOrEqual(goals.getFirst(), points);
        }
    }

    /** The best of all levels in strict order, each of their goals given {@code seconds}. */
    List<Found> best(double seconds) {
        return IntStream.range(0, LEVELS).mapToObj(level -> best(level, seconds)).toList();
    }
}
