package limbqueue.bench;

import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import limbqueue.booking.Lateness;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.Session;
import limbqueue.booking.Step;
import limbqueue.booking.StepMinutes;
import limbqueue.booking.Waiting;

/**
 * The best plan there is, level by level, found and proved by CP-SAT. A model of its own: it shares with the planner what is to be
 * planned and the numbers in it, and none of its rules. Cases are of different patients and results do not run out.
 */
final class ExactPlan {

    static final int LEVELS = 6;

    /** What was found at one level: the best value, and the least that it could be. */
    record Found(long value, long bound) {
        boolean proved() {
            return value == bound;
        }
    }

    private final Waiting waiting;
    private final CpModel model = new CpModel();
    /** For each case, each step: the choice of each session that can take it, by the session's place in the list. */
    private final List<List<Map<Integer, BoolVar>>> choices = new ArrayList<>();

    private final List<LinearExpr> levels = new ArrayList<>();

    ExactPlan(Waiting waiting) {
        this.waiting = waiting;
        choose();
        var builders = new ArrayList<LinearExprBuilder>();
        for (var i = 0; i < LEVELS; i++) {
            builders.add(LinearExpr.newBuilder());
        }
        weigh(builders);
        fill(builders.get(2));
        builders.forEach(builder -> levels.add(builder.build()));
    }

    private void choose() {
        for (var of : waiting.cases()) {
            var steps = new ArrayList<Map<Integer, BoolVar>>();
            for (var s = 0; s < of.steps().size(); s++) {
                var step = of.steps().get(s);
                var choice = new LinkedHashMap<Integer, BoolVar>();
                for (var t = 0; t < waiting.sessions().size(); t++) {
                    if (takes(step, waiting.sessions().get(t))) {
                        choice.put(t, model.newBoolVar(""));
                    }
                }
                model.addAtMostOne(choice.values().toArray(BoolVar[]::new));
                if (s > 0) {
                    follow(step, choice, steps.get(s - 1));
                }
                steps.add(choice);
            }
            choices.add(steps);
        }
    }

    private boolean takes(Step step, Session session) {
        return session.kind() == step.kind().session()
                && !session.closed()
                && !session.date().isBefore(waiting.asOf())
                && session.capabilities().containsAll(step.needs())
                && step.barred().stream()
                        .noneMatch(bar -> bar.from().isBefore(session.end())
                                && bar.until().isAfter(session.start()));
    }

    /** A session can be chosen only if one before it is chosen for the step before. */
    private void follow(Step step, Map<Integer, BoolVar> choice, Map<Integer, BoolVar> before) {
        choice.forEach((t, chosen) -> {
            var session = waiting.sessions().get(t);
            var earlier = LinearExpr.newBuilder();
            before.forEach((b, other) -> {
                var there = waiting.sessions().get(b);
                if (!there.end().isAfter(session.start())
                        && ChronoUnit.DAYS.between(there.date(), session.date()) >= step.daysAfterPrevious()) {
                    earlier.add(other);
                }
            });
            earlier.addTerm(chosen, -1);
            model.addGreaterOrEqual(earlier, 0);
        });
    }

    private void weigh(List<LinearExprBuilder> levels) {
        for (var c = 0; c < choices.size(); c++) {
            var of = waiting.cases().get(c);
            var late = levels.get(
                    switch (Lateness.levelOf(of.tier())) {
                        case PROMISES_OF_5_DAYS -> 0;
                        case PROMISES_OF_14_DAYS -> 1;
                        default -> 3;
                    });
            var weight = switch (of.tier()) {
                case WITHIN_6_WEEKS -> 3L;
                default -> 1L;
            };
            var broken = Lateness.levelOf(of.tier()) == Level.LATENESS ? 0 : Lateness.BROKEN_PROMISE;
            for (var s = 0; s < choices.get(c).size(); s++) {
                var last = s == choices.get(c).size() - 1;
                var step = of.steps().get(s);
                var without = last
                        ? weight * (28 + Math.max(0, ChronoUnit.DAYS.between(of.target(), waiting.lastDay()))) + broken
                        : 7 * weight;
                late.add(without);
                choices.get(c).get(s).forEach((t, chosen) -> {
                    var session = waiting.sessions().get(t);
                    var days = Math.max(0, ChronoUnit.DAYS.between(of.target(), session.date()));
                    var points = last && days > 0 ? weight * days + broken : 0;
                    late.addTerm(chosen, points - without);
                    levels.get(5)
                            .addTerm(
                                    chosen,
                                    step.minutes().expected()
                                            * ChronoUnit.DAYS.between(waiting.asOf(), session.date()));
                });
            }
            told(c, levels.get(4));
        }
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

    /** Each session holds one of the mixes of times that fit into it, and lacks the minutes of that mix. */
    private void fill(LinearExprBuilder overrun) {
        var kinds = new HashMap<Integer, Map<StepMinutes, LinearExprBuilder>>();
        var most = new HashMap<Integer, Map<StepMinutes, Integer>>();
        for (var c = 0; c < choices.size(); c++) {
            for (var s = 0; s < choices.get(c).size(); s++) {
                var minutes = waiting.cases().get(c).steps().get(s).minutes();
                choices.get(c).get(s).forEach((t, chosen) -> {
                    kinds.computeIfAbsent(t, _ -> new LinkedHashMap<>())
                            .computeIfAbsent(minutes, _ -> LinearExpr.newBuilder())
                            .add(chosen);
                    most.computeIfAbsent(t, _ -> new LinkedHashMap<>()).merge(minutes, 1, Integer::sum);
                });
            }
        }
        new TreeMap<>(kinds).forEach((t, ofSession) -> {
            var session = waiting.sessions().get(t);
            var times = List.copyOf(ofSession.keySet());
            var variables = new ArrayList<IntVar>();
            for (var time : times) {
                var count =
                        model.newIntVar(0, Math.min(most.get(t).get(time), session.minutes() / time.expected()), "");
                model.addEquality(ofSession.get(time), count);
                variables.add(count);
            }
            var lacking = model.newIntVar(0, 100_000, "");
            variables.add(lacking);
            overrun.add(lacking);
            var table = model.addAllowedAssignments(variables.toArray(IntVar[]::new));
            mixes(session.minutes(), times, new long[times.size() + 1], 0, 0, 0).forEach(table::addTuple);
        });
    }

    private static List<long[]> mixes(
            int minutes, List<StepMinutes> times, long[] mix, int from, long expected, long variance) {
        var found = new ArrayList<long[]>();
        if (from == times.size()) {
            mix[from] = StepMinutes.overrun(expected, variance, minutes);
            found.add(mix.clone());
            return found;
        }
        var time = times.get(from);
        for (var count = 0L; expected + count * time.expected() <= minutes; count++) {
            mix[from] = count;
            found.addAll(mixes(
                    minutes,
                    times,
                    mix,
                    from + 1,
                    expected + count * time.expected(),
                    variance + count * time.variance()));
        }
        return found;
    }

    /** Begins the search at {@code places}, as indices of sessions, -1 for none. */
    void beginAt(int[][] places) {
        for (var c = 0; c < choices.size(); c++) {
            for (var s = 0; s < choices.get(c).size(); s++) {
                var at = places[c][s];
                choices.get(c).get(s).forEach((t, chosen) -> model.addHint(chosen, t == at));
            }
        }
    }

    /** Keeps {@code level} at {@code value} or better from here on. */
    void keep(int level, long value) {
        model.addLessOrEqual(levels.get(level), value);
    }

    /** The best of {@code level} with what is kept. */
    Found best(int level, double seconds) {
        model.minimize(levels.get(level));
        var solver = new CpSolver();
        solver.getParameters().setMaxTimeInSeconds(seconds).setRandomSeed(1);
        var status = solver.solve(model);
        if (status != CpSolverStatus.OPTIMAL && status != CpSolverStatus.FEASIBLE) {
            return new Found(Long.MAX_VALUE, (long) Math.ceil(solver.bestObjectiveBound() - 1e-6));
        }
        return new Found(Math.round(solver.objectiveValue()), (long) Math.ceil(solver.bestObjectiveBound() - 1e-6));
    }

    /** The best of all levels in strict order, each given {@code seconds}. */
    List<Found> best(double seconds) {
        var found = new ArrayList<Found>();
        for (var level = 0; level < LEVELS; level++) {
            var best = best(level, seconds);
            found.add(best);
            keep(level, best.value());
        }
        return found;
    }
}
