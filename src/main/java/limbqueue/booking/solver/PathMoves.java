package limbqueue.booking.solver;

import ai.timefold.solver.core.impl.heuristic.selector.move.factory.MoveIteratorFactory;
import ai.timefold.solver.core.impl.score.director.ScoreDirector;
import ai.timefold.solver.core.preview.api.move.Move;
import java.util.Iterator;
import java.util.random.RandomGenerator;

/** Changes as {@link DrawnChanges} draws them, as moves of the solver. */
public class PathMoves implements MoveIteratorFactory<Timetable, Move<Timetable>> {

    private final Overruns overruns = new Overruns();

    @Override
    public long getSize(ScoreDirector<Timetable> director) {
        return director.getWorkingSolution().getAppointments().size();
    }

    @Override
    public Iterator<Move<Timetable>> createOriginalMoveIterator(ScoreDirector<Timetable> director) {
        // Asked for only where every move is tried in turn, which a search by drawn moves never does.
        throw new UnsupportedOperationException("these moves are drawn at random");
    }

    @Override
    public Iterator<Move<Timetable>> createRandomMoveIterator(
            ScoreDirector<Timetable> director, RandomGenerator random) {
        var timetable = director.getWorkingSolution();
        var drawn = new DrawnChanges(timetable.getAppointments(), Load.of(timetable, overruns), random);
        return new Iterator<>() {
            @Override
            public boolean hasNext() {
                return true;
            }

            @Override
            public Move<Timetable> next() {
                return drawn.draw().move();
            }
        };
    }
}
