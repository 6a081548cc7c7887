package limbqueue.booking.solver;

import java.util.Arrays;
import java.util.List;
import limbqueue.booking.KeptPlaces;
import limbqueue.booking.Replan;
import limbqueue.booking.Replan.LevelScore;
import limbqueue.booking.ReplanLevel;
import limbqueue.booking.Search;
import limbqueue.booking.Session;
import limbqueue.booking.Waiting;
import limbqueue.triage.TriageResult;

/** Looks for a plan that takes the place of one that is kept, beginning with what can stay of it. */
public final class ReplanSearch {

    private ReplanSearch() {}

    /**
     * The best plan that was found, as the difference.
     *
     * @param kept where steps are in the plan that is kept
     * @param stillPossible those places that can stay
     * @param closed sessions that do not take place
     */
    public static Replan replan(
            Waiting waiting, KeptPlaces kept, KeptPlaces stillPossible, List<Session> closed, Search search) {
        var before = Timetable.of(waiting, kept, stillPossible);
        var found = before.getAppointments().isEmpty()
                ? before
                : PlanSearch.solved(before, search, ReplanConstraints.class);
        var differences = new Differences(waiting, found);
        return new Replan(
                TriageResult.NOTICE,
                waiting.asOf(),
                search.seed(),
                search.steps(),
                Arrays.stream(ReplanLevel.values())
                        .map(level -> new LevelScore(level, ReplanConstraints.points(found, level)))
                        .toList(),
                closed,
                differences.moves(),
                differences.without());
    }
}
