package limbqueue.booking.solver;

import ai.timefold.solver.core.api.solver.phase.PhaseCommand;
import ai.timefold.solver.core.api.solver.phase.PhaseCommandContext;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.builtin.Moves;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import limbqueue.booking.Search;
import org.jspecify.annotations.Nullable;

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
        var timetable = context.getWorkingSolution();
        var best = anneal(timetable);
        var moves = new ArrayList<Move<Timetable>>();
        for (var one : timetable.getAppointments()) {
            var slot = best[one.getNumber()];
            if (slot != one.getSlot()) {
                moves.add(Draft.move(one, slot));
            }
        }
        if (!moves.isEmpty()) {
            context.execute(Moves.compose(moves));
        }
    }

    /** Where each appointment was in the best timetable that was there, by its number. */
    private @Nullable Slot[] anneal(Timetable timetable) {
        var random = new SplittableRandom(search.seed());
        var drawn = new DrawnChanges(timetable.getAppointments(), Load.of(timetable, new Overruns()), random.split());
        var best = new Best(timetable);
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
        return best.slots;
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

    /** The best timetable that was there, and how that which is there now differs. */
    private static final class Best {
        private final @Nullable Slot[] slots;
        /** Who may be elsewhere now. */
        private final boolean[] differs;

        private final List<Appointment> different = new ArrayList<>();
        /** What that which is there now has lost beside it. */
        private final long[] lost = new long[Timetable.SOFT_LEVELS];

        Best(Timetable timetable) {
            var appointments = timetable.getAppointments();
            this.slots = new Slot[appointments.size()];
            this.differs = new boolean[appointments.size()];
            for (var one : appointments) {
                slots[one.getNumber()] = one.getSlot();
            }
        }

        /** Sees what has become of those who have been {@code moved}. */
        void follow(List<Appointment> moved, Draft draft) {
            for (var one : moved) {
                if (!differs[one.getNumber()]) {
                    differs[one.getNumber()] = true;
                    different.add(one);
                }
            }
            for (var level = 0; level < lost.length; level++) {
                lost[level] += draft.lost()[level];
            }
            if (Draft.first(lost, lost.length) < 0) {
                keep(draft);
            }
        }

        private void keep(Draft draft) {
            for (var one : different) {
                slots[one.getNumber()] = draft.now(one);
                differs[one.getNumber()] = false;
            }
            different.clear();
            Arrays.fill(lost, 0);
        }
    }
}
