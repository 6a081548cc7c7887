package limbqueue.booking;

import limbqueue.booking.solver.PlanSearch;

/** Proposes who goes into which session. */
public final class Planner {

    private Planner() {}

    /** The best plan that was found. */
    public static Plan plan(Waiting waiting, Search search) {
        return PlanSearch.plan(waiting, search);
    }
}
