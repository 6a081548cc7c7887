package limbqueue.booking.solver;

import ai.timefold.solver.core.impl.heuristic.selector.move.factory.MoveIteratorFactory;
import ai.timefold.solver.core.impl.score.director.ScoreDirector;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningSolutionMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningVariableMetaModel;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.builtin.Moves;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/**
 * Moves that one change or exchange cannot make: a case's whole path at once, since its steps hold each other in place; one
 * case into the place of another, which goes elsewhere; and three that change places in a ring.
 */
public class PathMoves implements MoveIteratorFactory<Timetable, Move<Timetable>> {

    private static final PlanningVariableMetaModel<Timetable, Appointment, @Nullable Slot> SLOT =
            PlanningSolutionMetaModel.of(Timetable.class, Appointment.class)
                    .genuineEntity(Appointment.class)
                    .basicVariable("slot", Slot.class);

    /** Tries at picking appointments that have something to exchange. */
    private static final int TRIES = 20;

    @Override
    public long getSize(ScoreDirector<Timetable> director) {
        return director.getWorkingSolution().getAppointments().size();
    }

    @Override
    public Iterator<Move<Timetable>> createOriginalMoveIterator(ScoreDirector<Timetable> director) {
        throw new UnsupportedOperationException("these moves are drawn at random");
    }

    @Override
    public Iterator<Move<Timetable>> createRandomMoveIterator(
            ScoreDirector<Timetable> director, RandomGenerator random) {
        var appointments = director.getWorkingSolution().getAppointments();
        return new Iterator<>() {
            @Override
            public boolean hasNext() {
                return true;
            }

            @Override
            public Move<Timetable> next() {
                return switch (random.nextInt(4)) {
                    case 0 -> intoThePlaceOfAnother(appointments, random);
                    case 1 -> ring(appointments, random);
                    default -> path(appointments, random);
                };
            }
        };
    }

    private static Move<Timetable> path(List<Appointment> appointments, RandomGenerator random) {
        var one = any(appointments, random);
        var first = one.getNumber() - one.index();
        var from = random.nextInt(one.waiting().steps().size());
        var moves = new ArrayList<Move<Timetable>>();
        var before = from == 0 ? null : appointments.get(first + from - 1).getSlot();
        for (var index = from; index < one.waiting().steps().size(); index++) {
            var appointment = appointments.get(first + index);
            var slot = index > 0 && before == null ? null : next(appointment, before, random);
            moves.add(Moves.change(SLOT, appointment, slot));
            before = slot;
        }
        return Moves.compose(moves);
    }

    /** A session that comes after {@code before}, more likely a soon one. */
    private static @Nullable Slot next(Appointment appointment, @Nullable Slot before, RandomGenerator random) {
        var range = appointment.getRange();
        var least = 0;
        if (before != null) {
            while (least < range.size() && !Fit.inOrder(appointment.step(), range.get(least), before)) {
                least++;
            }
        }
        var left = range.size() - least;
        return left == 0 ? null : range.get(least + random.nextInt(1 + random.nextInt(left)));
    }

    private static Move<Timetable> intoThePlaceOfAnother(List<Appointment> appointments, RandomGenerator random) {
        var one = any(appointments, random);
        for (var i = 0; i < TRIES; i++) {
            var other = any(appointments, random);
            var place = other.getSlot();
            if (other != one && place != null && place != one.getSlot() && takes(one, place)) {
                return Moves.compose(
                        Moves.change(SLOT, one, place),
                        Moves.change(
                                SLOT,
                                other,
                                other.getRange()
                                        .get(random.nextInt(other.getRange().size()))));
            }
        }
        return path(appointments, random);
    }

    private static Move<Timetable> ring(List<Appointment> appointments, RandomGenerator random) {
        var ring = new ArrayList<Appointment>(List.of(any(appointments, random)));
        for (var i = 0; i < TRIES && ring.size() < 3; i++) {
            var next = any(appointments, random);
            var place = next.getSlot();
            if (place != null && !ring.contains(next) && takes(ring.getLast(), place)) {
                ring.add(next);
            }
        }
        if (ring.size() < 3) {
            return path(appointments, random);
        }
        var moves = new ArrayList<Move<Timetable>>();
        for (var i = 0; i < ring.size(); i++) {
            var place = ring.get((i + 1) % ring.size()).getSlot();
            moves.add(Moves.change(SLOT, ring.get(i), place != null && takes(ring.get(i), place) ? place : null));
        }
        return Moves.compose(moves);
    }

    private static Appointment any(List<Appointment> appointments, RandomGenerator random) {
        return appointments.get(random.nextInt(appointments.size()));
    }

    private static boolean takes(Appointment appointment, Slot slot) {
        // The range is sorted by time.
        var range = appointment.getRange();
        var from = 0;
        var to = range.size() - 1;
        while (from <= to) {
            var middle = (from + to) >>> 1;
            var number = range.get(middle).number();
            if (number == slot.number()) {
                return true;
            }
            if (number < slot.number()) {
                from = middle + 1;
            } else {
                to = middle - 1;
            }
        }
        return false;
    }
}
