package limbqueue.booking.solver;

import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicPhaseConfig;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicType;
import ai.timefold.solver.core.config.heuristic.selector.move.composite.UnionMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.factory.MoveIteratorFactoryConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.ChangeMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.SwapMoveSelectorConfig;
import ai.timefold.solver.core.config.localsearch.LocalSearchPhaseConfig;
import ai.timefold.solver.core.config.localsearch.decider.acceptor.LocalSearchAcceptorConfig;
import ai.timefold.solver.core.config.localsearch.decider.forager.LocalSearchForagerConfig;
import ai.timefold.solver.core.config.solver.EnvironmentMode;
import ai.timefold.solver.core.config.solver.SolverConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import limbqueue.booking.Plan;
import limbqueue.booking.Search;
import limbqueue.booking.Waiting;

/** Looks for a plan: first in the order of urgency, then by moving and exchanging what has been placed. */
public final class PlanSearch {

    private static final int LATE_ACCEPTANCE = 400;

    private PlanSearch() {}

    /** The best plan that was found, with its reasons. */
    public static Plan plan(Waiting waiting, Search search) {
        var found = Timetable.of(waiting);
        if (!found.getAppointments().isEmpty()) {
            var factory = SolverFactory.<Timetable>create(config(search));
            found = factory.buildSolver().solve(found);
        }
        return new Reasons(waiting, found).plan(search);
    }

    private static SolverConfig rules() {
        return new SolverConfig()
                .withSolutionClass(Timetable.class)
                .withEntityClasses(Appointment.class)
                .withConstraintProviderClass(PlanConstraints.class);
    }

    private static SolverConfig config(Search search) {
        var first = new ConstructionHeuristicPhaseConfig()
                .withConstructionHeuristicType(ConstructionHeuristicType.FIRST_FIT);
        var config = rules().withEnvironmentMode(EnvironmentMode.NO_ASSERT).withRandomSeed(search.seed());
        search.atMost().ifPresent(config::withTerminationSpentLimit);
        return search.steps() == 0 ? config.withPhases(first) : config.withPhases(first, improvement(search.steps()));
    }

    private static LocalSearchPhaseConfig improvement(int steps) {
        return new LocalSearchPhaseConfig()
                .withMoveSelectorConfig(new UnionMoveSelectorConfig()
                        .withMoveSelectors(
                                new ChangeMoveSelectorConfig(),
                                new SwapMoveSelectorConfig(),
                                new MoveIteratorFactoryConfig().withMoveIteratorFactoryClass(PathMoves.class)))
                .withAcceptorConfig(new LocalSearchAcceptorConfig().withLateAcceptanceSize(LATE_ACCEPTANCE))
                .withForagerConfig(new LocalSearchForagerConfig().withAcceptedCountLimit(1))
                .withTerminationConfig(new TerminationConfig().withStepCountLimit(steps));
    }
}
