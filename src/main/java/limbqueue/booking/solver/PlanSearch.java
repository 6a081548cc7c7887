package limbqueue.booking.solver;

import ai.timefold.solver.core.api.score.BendableScore;
import ai.timefold.solver.core.api.score.stream.ConstraintProvider;
import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicPhaseConfig;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicType;
import ai.timefold.solver.core.config.heuristic.selector.move.composite.UnionMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.factory.MoveIteratorFactoryConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.ChangeMoveSelectorConfig;
import ai.timefold.solver.core.config.localsearch.LocalSearchPhaseConfig;
import ai.timefold.solver.core.config.localsearch.decider.acceptor.LocalSearchAcceptorConfig;
import ai.timefold.solver.core.config.localsearch.decider.forager.LocalSearchForagerConfig;
import ai.timefold.solver.core.config.solver.EnvironmentMode;
import ai.timefold.solver.core.config.solver.SolverConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import java.time.Duration;
import java.util.Objects;
import java.util.Optional;
import limbqueue.booking.Plan;
import limbqueue.booking.Search;
import limbqueue.booking.Waiting;

/** Looks for a plan: first in the order of urgency, then by moving and exchanging what has been placed; in rounds, if there is time. */
public final class PlanSearch {

    /** A change is taken when it is no worse than what was there so many changes ago: more of them the longer the search. */
    private static final int SHORTEST_MEMORY = 50;

    private static final int LONGEST_MEMORY = 2_000;
    private static final int STEPS_FOR_EACH = 200;
    /**
     * With more steps than so many for each appointment a search begins anew with another seed: where one is stuck beside the best
     * plan, another often is not.
     */
    private static final int ROUND = 2_000;

    private PlanSearch() {}

    /** The best plan that was found, with its reasons. */
    public static Plan plan(Waiting waiting, Search search) {
        var found = Timetable.of(waiting);
        if (!found.getAppointments().isEmpty()) {
            found = best(waiting, search);
        }
        return new Reasons(waiting, found).plan(search);
    }

    /** The best of as many rounds as there are steps and time for; of equal ones the first. */
    private static Timetable best(Waiting waiting, Search search) {
        var timetable = Timetable.of(waiting);
        var rounds =
                Math.max(1, search.steps() / ROUND / timetable.getAppointments().size());
        var begin = System.nanoTime();
        var best = solved(timetable, round(search, 0, rounds, search.atMost()), PlanConstraints.class);
        for (var i = 1; i < rounds; i++) {
            // The solver takes no part of a millisecond.
            var left = search.atMost()
                    .map(most -> Duration.ofMillis(
                            most.minusNanos(System.nanoTime() - begin).toMillis()));
            if (left.filter(time -> !time.isPositive()).isPresent()) {
                break;
            }
            var found = solved(Timetable.of(waiting), round(search, i, rounds, left), PlanConstraints.class);
            if (score(found).compareTo(score(best)) > 0) {
                best = found;
            }
        }
        return best;
    }

    private static Search round(Search search, int number, int rounds, Optional<Duration> atMost) {
        return new Search(search.seed() + number, search.steps() / rounds, atMost);
    }

    private static BendableScore score(Timetable timetable) {
        return Objects.requireNonNull(timetable.getScore(), "what has been solved has a score");
    }

    static Timetable solved(Timetable timetable, Search search, Class<? extends ConstraintProvider> constraints) {
        // The solver looks for classes through the loader of the thread, which need not know the one that has them.
        var thread = Thread.currentThread();
        var before = thread.getContextClassLoader();
        thread.setContextClassLoader(PlanSearch.class.getClassLoader());
        try {
            return SolverFactory.<Timetable>create(config(search, constraints))
                    .buildSolver()
                    .solve(timetable);
        } finally {
            thread.setContextClassLoader(before);
        }
    }

    private static SolverConfig rules(Class<? extends ConstraintProvider> constraints) {
        return new SolverConfig()
                .withSolutionClass(Timetable.class)
                .withEntityClasses(Appointment.class)
                .withConstraintProviderClass(constraints);
    }

    private static SolverConfig config(Search search, Class<? extends ConstraintProvider> constraints) {
        var first = new ConstructionHeuristicPhaseConfig()
                .withConstructionHeuristicType(ConstructionHeuristicType.FIRST_FIT);
        var config = rules(constraints)
                .withEnvironmentMode(EnvironmentMode.NO_ASSERT)
                .withRandomSeed(search.seed());
        search.atMost().ifPresent(config::withTerminationSpentLimit);
        return search.steps() == 0 ? config.withPhases(first) : config.withPhases(first, improvement(search.steps()));
    }

    private static LocalSearchPhaseConfig improvement(int steps) {
        return new LocalSearchPhaseConfig()
                .withMoveSelectorConfig(new UnionMoveSelectorConfig()
                        .withMoveSelectors(
                                new ChangeMoveSelectorConfig().withFixedProbabilityWeight(1.0),
                                new MoveIteratorFactoryConfig()
                                        .withMoveIteratorFactoryClass(PathMoves.class)
                                        .withFixedProbabilityWeight(20.0)))
                .withAcceptorConfig(new LocalSearchAcceptorConfig()
                        .withLateAcceptanceSize(Math.clamp(steps / STEPS_FOR_EACH, SHORTEST_MEMORY, LONGEST_MEMORY)))
                .withForagerConfig(new LocalSearchForagerConfig().withAcceptedCountLimit(1))
                .withTerminationConfig(new TerminationConfig().withMoveCountLimit((long) steps));
    }
}
