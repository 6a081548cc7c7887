package limbqueue.booking.solver;

import ai.timefold.solver.core.api.solver.phase.PhaseCommand;
import ai.timefold.solver.core.api.solver.phase.PhaseCommandContext;
import java.util.List;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import limbqueue.booking.Search;

/**
 * Anneals a timetable as a phase of the solver (S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, Optimization by simulated annealing, Science
 * 220, 1983, 671-680; value from memory): takes drawn changes for the worse, more seldom the worse they are and the later they come, and
 * hands the best that was there to the solver, which judges it by its rules. It weighs changes by itself, since the rules, asked after
 * every change, take as long as several changes.
 */
final class Annealing implements PhaseCommand<Timetable> {

    /** Every so many steps it looks at the clock. */
    private static final int STEPS_BETWEEN_LOOKS = 64;

    private final Search search;
    private final List<Double> from;
    private final List<Double> to;

    /**
     * @param from by how much a change may be worse, level by level, and still be taken about one time in three at the beginning; 0 never
     * @param to the same at the end
     */
    Annealing(Search search, List<Double> from, List<Double> to) {
        this.search = search;
        this.from = from;
        this.to = to;
    }

    @Override
    public void changeWorkingSolution(PhaseCommandContext<Timetable> context) {
        anneal(context.getWorkingSolution()).handTo(context);
    }

    private BestDraft anneal(Timetable timetable) {
        var random = new SplittableRandom(search.seed());
        var drawn = new DrawnChanges(timetable.getAppointments(), Load.of(timetable, new Overruns()), random.split());
        var best = new BestDraft(timetable);
        var begin = System.nanoTime();
        var done = 0.0;
        for (var step = 0; step < search.steps() && done < 1; step++) {
            if (step % STEPS_BETWEEN_LOOKS == 0) {
                done = done(step, System.nanoTime() - begin);
            }
            var draft = drawn.draw();
            if (taken(draft.lost(), done, random)) {
                best.follow(drawn.commit(), draft);
            }
        }
        return best;
    }

    private double done(int step, long nanos) {
        var bySteps = step / (double) search.steps();
        return search.atMost()
                .map(most -> Math.max(bySteps, nanos / (double) most.toNanos()))
                .orElse(bySteps);
    }

    private boolean taken(long[] lost, double done, RandomGenerator random) {
        if (Draft.first(lost, lost.length) <= 0) {
            return true;
        }
        var worse = 0.0;
        for (var level = 0; level < lost.length; level++) {
            if (lost[level] > 0) {
                // Divided by 0 it is more than can be taken.
                worse += lost[level] / (from.get(level) * (1 - done) + to.get(level) * done);
            }
        }
        return random.nextDouble() < Math.exp(-worse);
    }
}
