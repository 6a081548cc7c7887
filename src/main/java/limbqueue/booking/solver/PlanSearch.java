package limbqueue.booking.solver;

import ai.timefold.solver.core.api.score.BendableScore;
import ai.timefold.solver.core.api.score.stream.ConstraintProvider;
import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.api.solver.phase.PhaseCommand;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicPhaseConfig;
import ai.timefold.solver.core.config.constructionheuristic.ConstructionHeuristicType;
import ai.timefold.solver.core.config.heuristic.selector.move.composite.UnionMoveSelectorConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.factory.MoveIteratorFactoryConfig;
import ai.timefold.solver.core.config.heuristic.selector.move.generic.ChangeMoveSelectorConfig;
import ai.timefold.solver.core.config.localsearch.LocalSearchPhaseConfig;
import ai.timefold.solver.core.config.localsearch.decider.acceptor.LocalSearchAcceptorConfig;
import ai.timefold.solver.core.config.localsearch.decider.forager.LocalSearchForagerConfig;
import ai.timefold.solver.core.config.phase.PhaseConfig;
import ai.timefold.solver.core.config.phase.custom.CustomPhaseConfig;
import ai.timefold.solver.core.config.solver.EnvironmentMode;
import ai.timefold.solver.core.config.solver.SolverConfig;
import ai.timefold.solver.core.config.solver.monitoring.MonitoringConfig;
import ai.timefold.solver.core.config.solver.termination.TerminationConfig;
import java.time.Duration;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.CompletableFuture;
import java.util.function.Predicate;
import limbqueue.booking.Lateness;
import limbqueue.booking.Plan;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.Search;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;

/**
 * Looks for a plan: first of those who have been promised a date, by changes that are no worse than what was there some changes ago and
 * then by annealing, in which changes for the worse are taken, more seldom the worse they are and the later they come; then of all, by
 * annealing the order in which they are booked, or, where steps are too few for that, the places of those who are due first; and in the
 * end anneals the places of all. Two such searches go on at once.
 */
public final class PlanSearch {

    /**
     * By how much a change may be worse, level by level, and still be taken about one time in three at the beginning of annealing.
     * While only those who have been promised a date look, days within 14 may be given up, and the time at which sessions end.
     */
    private static final List<Double> OF_THOSE_PROMISED = List.of(0.0, 30.0, 50.0, 0.0, 0.0, 300.0);

    /** No promise is given up any more: only a little of what comes behind promises. */
    private static final List<Double> OF_DUE_SOON = List.of(0.0, 0.0, 0.0, 6.0, 1.0, 1_000.0);

    /** Told patients and idle minutes stay warm while days late cool: else nobody moves any more long before those are at their least. */
    private static final List<Double> TO_FEWEST_DAYS = List.of(0.0, 0.0, 0.0, 0.0, 1.0, 1_000.0);

    /** All cool together. */
    private static final List<Double> OF_ALL = List.of(0.0, 0.0, 0.0, 3.0, 1.0, 300.0);

    /**
     * Idle minutes are warmer the first time behind orders. Of two who are as late without a place, those minutes want the longer one to
     * have none; but only when a short one has none is the next gap wide enough for one more.
     */
    private static final List<Double> BEHIND_ORDERS = List.of(0.0, 0.0, 0.0, 3.0, 1.0, 4_000.0);

    private static final List<Double> COLD = List.of(0.0, 0.0, 0.0, 0.0, 0.0, 0.0);

    /** So much of a search looks for places of those promised a date: once, or as often as there are so many steps for each appointment. */
    private static final double LOOKING = 0.065;

    private static final int STEPS_OF_A_LOOK = 2_000;
    private static final int MOST_LOOKS = 8;

    /** So much of it anneals the best of the looks. */
    private static final double ANNEALING_PROMISES = 0.13;

    /**
     * So much of it begins the whole: by the order in which all are booked, where there are so many steps for each appointment, and
     * then at most so many, since a small practice has been through its orders long before.
     */
    private static final double BEGINNING = 0.455;

    private static final int FEWEST_STEPS_OF_ORDERS = 1_000;
    private static final int MOST_STEPS_OF_ORDERS = 3_000;

    /** Where there are fewer, such parts of the others look behind those promised, who are due first, one after the other. */
    private static final List<Double> DUE_SOON = List.of(0.25, 0.5);

    /**
     * The rest of the search anneals the whole until it is cold: once, or as often as there are so many steps for each appointment, since
     * a small practice is frozen long before.
     */
    private static final int STEPS_OF_A_COOLING = 2_000;

    private static final int MOST_COOLINGS = 12;

    /** A change is taken when it is no worse than what was there so many changes ago: more of them the longer the search. */
    private static final int SHORTEST_MEMORY = 50;

    private static final int LONGEST_MEMORY = 2_000;
    private static final int STEPS_FOR_EACH = 200;

    /** A search whose seed is so much higher has none in common with this one, whose parts have the next few. */
    private static final int SEEDS_OF_A_SEARCH = 100;

    private PlanSearch() {}

    /** The best plan that was found, with its reasons. */
    public static Plan plan(Waiting waiting, Search search) {
        var found = Timetable.of(waiting);
        if (!found.getAppointments().isEmpty()) {
            found = bestOfTwo(waiting, search);
        }
        return new Reasons(waiting, found).plan(search);
    }

    /** The better of two that are looked for at once: who has no place in the end is partly chance. */
    static Timetable bestOfTwo(Waiting waiting, Search search) {
        var other = CompletableFuture.supplyAsync(
                () -> best(waiting, other(search)),
                looking -> Thread.ofPlatform().daemon().name("other search").start(looking));
        return better(best(waiting, search), other.join());
    }

    /** The search that goes on beside {@code search}. */
    static Search other(Search search) {
        return part(search, 1, SEEDS_OF_A_SEARCH);
    }

    /**
     * The best that was found. Those who have been promised a date look for places as if nobody else waited, then all behind them:
     * when all look at once, whatever helps a promise a little throws the others about, and the search spends its steps on gathering them.
     */
    static Timetable best(Waiting waiting, Search search) {
        var promised = promised(waiting);
        var found = Timetable.of(waiting);
        var size = found.getAppointments().size();
        var beginning = Math.min(BEGINNING, MOST_STEPS_OF_ORDERS * (double) size / search.steps());
        found.begin(promised.cases().isEmpty() ? Timetable.of(promised) : bestOfPromised(promised, search));
        var ordered = search.steps() * BEGINNING >= (double) FEWEST_STEPS_OF_ORDERS * size;
        if (ordered) {
            found = solved(
                    found, search.seed(), phase(new BookingOrder(part(search, beginning, 0))), PlanConstraints.class);
        } else {
            begin(found, waiting, search);
        }
        var left = 1 - LOOKING - ANNEALING_PROMISES - beginning;
        var times = times(left, search, found, STEPS_OF_A_COOLING, MOST_COOLINGS);
        for (var i = 1; i <= times; i++) {
            found = annealed(found, part(search, left / times, i), ordered && i == 1 ? BEHIND_ORDERS : OF_ALL, COLD);
        }
        return found;
    }

    /**
     * Puts those who are due first where annealing has them, behind those who have a place in {@code whole}. Who will be late is settled
     * among those, since nobody is late before the target.
     */
    private static void begin(Timetable whole, Waiting waiting, Search search) {
        var found = whole;
        for (var part : DUE_SOON) {
            var soon = Timetable.of(dueUpTo(waiting, part));
            soon.begin(found);
            found = annealed(soon, part(search, BEGINNING / DUE_SOON.size(), 0), OF_DUE_SOON, TO_FEWEST_DAYS);
        }
        whole.begin(found);
    }

    /** How often a part of a search is done: once, or as often as it has so many steps for each appointment. */
    private static int times(double share, Search search, Timetable timetable, int stepsForEach, int most) {
        var size = timetable.getAppointments().size();
        return Math.clamp((long) (search.steps() * share) / stepsForEach / size, 1, most);
    }

    private static Timetable bestOfPromised(Waiting promised, Search search) {
        var looks = times(LOOKING, search, Timetable.of(promised), STEPS_OF_A_LOOK, MOST_LOOKS);
        var look = part(search, LOOKING / looks, 0);
        var best = looked(promised, look);
        for (var i = 1; i < looks; i++) {
            best = better(best, looked(promised, part(look, 1, i)));
        }
        return annealed(best, part(search, ANNEALING_PROMISES, looks), OF_THOSE_PROMISED, COLD);
    }

    private static Timetable looked(Waiting promised, Search search) {
        return solved(Timetable.of(promised), search, PlanConstraints.class);
    }

    /** What is to be planned of those who have been promised a date. */
    private static Waiting promised(Waiting waiting) {
        return of(waiting, PlanSearch::promised);
    }

    /** What is to be planned of them and of such a part of the others: those whose targets come first. */
    private static Waiting dueUpTo(Waiting waiting, double part) {
        var targets = waiting.cases().stream()
                .filter(one -> !promised(one))
                .map(WaitingCase::target)
                .sorted()
                .toList();
        return of(waiting, one -> promised(one) || !one.target().isAfter(targets.get((int) (targets.size() * part))));
    }

    private static boolean promised(WaitingCase of) {
        return Lateness.levelOf(of.tier()) != Level.LATENESS;
    }

    private static Waiting of(Waiting waiting, Predicate<WaitingCase> which) {
        return new Waiting(
                waiting.asOf(),
                waiting.lastDay(),
                waiting.sessions(),
                waiting.cases().stream().filter(which).toList(),
                waiting.zone());
    }

    /** What comes of {@code found} when it is booked to its end and then annealed. */
    private static Timetable annealed(Timetable found, Search search, List<Double> from, List<Double> to) {
        return solved(found, search.seed(), phase(new Annealing(search, from, to)), PlanConstraints.class);
    }

    static CustomPhaseConfig phase(PhaseCommand<Timetable> command) {
        return new CustomPhaseConfig().withCustomPhaseCommandList(List.of(command));
    }

    private static Timetable better(Timetable first, Timetable later) {
        return score(later).compareTo(score(first)) > 0 ? later : first;
    }

    /** A share of the steps and the time of {@code search}, with another seed. */
    private static Search part(Search search, double share, int number) {
        return new Search(
                search.seed() + number,
                (int) (search.steps() * share),
                // The solver takes no part of a millisecond.
                search.atMost().map(most -> Duration.ofMillis(Math.max(1, Math.round(most.toMillis() * share)))));
    }

    static BendableScore score(Timetable timetable) {
        return Objects.requireNonNull(timetable.getScore(), "what has been solved has a score");
    }

    /** What comes of {@code timetable} when a change is taken that is no worse than what was there some changes ago. */
    static Timetable solved(Timetable timetable, Search search, Class<? extends ConstraintProvider> constraints) {
        return solved(timetable, search.seed(), improvement(search), constraints);
    }

    /** What comes of {@code timetable} when whoever has no place is booked and then {@code improvement} follows. */
    static Timetable solved(
            Timetable timetable,
            long seed,
            PhaseConfig<?> improvement,
            Class<? extends ConstraintProvider> constraints) {
        var booking = new ConstructionHeuristicPhaseConfig()
                .withConstructionHeuristicType(ConstructionHeuristicType.FIRST_FIT);
        var config = new SolverConfig()
                .withSolutionClass(Timetable.class)
                .withEntityClasses(Appointment.class)
                .withConstraintProviderClass(constraints)
                .withEnvironmentMode(EnvironmentMode.NO_ASSERT)
                .withRandomSeed(seed)
                // Nobody reads what it counts, and two that count at once complain of each other.
                .withMonitoringConfig(new MonitoringConfig().withSolverMetricList(List.of()))
                .withPhases(booking, improvement);
        // The solver looks for classes through the loader of the thread, which need not know the one that has them.
        var thread = Thread.currentThread();
        var before = thread.getContextClassLoader();
        thread.setContextClassLoader(PlanSearch.class.getClassLoader());
        try {
            return SolverFactory.<Timetable>create(config).buildSolver().solve(timetable);
        } finally {
            thread.setContextClassLoader(before);
        }
    }

    private static LocalSearchPhaseConfig improvement(Search search) {
        var memory = Math.clamp(search.steps() / STEPS_FOR_EACH, SHORTEST_MEMORY, LONGEST_MEMORY);
        // It ends by itself, and not the solver, since a timetable that is not booked to its end is none.
        var end = new TerminationConfig().withMoveCountLimit((long) search.steps());
        search.atMost().ifPresent(end::withSpentLimit);
        return new LocalSearchPhaseConfig()
                .withMoveSelectorConfig(new UnionMoveSelectorConfig()
                        .withMoveSelectors(
                                new ChangeMoveSelectorConfig().withFixedProbabilityWeight(1.0),
                                new MoveIteratorFactoryConfig()
                                        .withMoveIteratorFactoryClass(PathMoves.class)
                                        .withFixedProbabilityWeight(20.0)))
                .withAcceptorConfig(new LocalSearchAcceptorConfig().withLateAcceptanceSize(memory))
                .withForagerConfig(new LocalSearchForagerConfig().withAcceptedCountLimit(1))
                .withTerminationConfig(end);
    }
}
