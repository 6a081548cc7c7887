package limbqueue.forecast;

import java.util.Arrays;
import java.util.List;

/**
 * One run: session after session is filled, most urgent tier first, in a tier by target date, then by who was received first.
 *
 * <p>A case is taken while what has gone of the session and what is planned for the case fit into it; one that does not fit
 * waits for the next session, and a shorter one behind it may be taken. A session in which nobody has been treated yet takes
 * any case. Who may not use held time leaves it free, as {@link Filling} has it. What a case truly takes is known when it is
 * done, and the next ones are taken or put off accordingly. Who misses an appointment leaves the time planned for it empty,
 * and waits on.
 */
final class Rounds {

    /** Of who is not treated within the forecast. */
    static final int NEVER = Integer.MAX_VALUE;

    private static final int DATES = 24;

    /** Days, more than there are in ten thousand years. */
    private static final int FAR = 1 << (DATES - 1);

    private final DrawnCases cases;
    private final List<Outset.Kind> kinds;
    private final long[] order;
    private final int[] notBefore;
    private final int[] misses;
    private final int[] treated;
    private final int[] line;
    private final double least;
    private int waiting;

    private Rounds(DrawnCases cases, List<Outset.Kind> kinds) {
        this.cases = cases;
        this.kinds = kinds;
        this.order = new long[cases.size()];
        this.notBefore = new int[cases.size()];
        this.misses = new int[cases.size()];
        this.treated = new int[cases.size()];
        this.line = new int[cases.size()];
        var smallest = Double.POSITIVE_INFINITY;
        for (var at = 0; at < cases.size(); at++) {
            order[at] = order(at);
            notBefore[at] = cases.ready(at);
            misses[at] = cases.misses(at);
            smallest = Math.min(smallest, cases.planned(at));
        }
        least = smallest;
        Arrays.fill(treated, NEVER);
    }

    /** The day on which each case is treated, or {@link #NEVER}. */
    static int[] days(DrawnCases cases, Outset outset) {
        var rounds = new Rounds(cases, outset.kinds());
        var byReadiness = rounds.byReadiness();
        var next = 0;
        for (var place : outset.places()) {
            while (next < byReadiness.length && rounds.notBefore[byReadiness[next]] <= place.day()) {
                rounds.queueUp(byReadiness[next++]);
            }
            rounds.fill(place);
        }
        return rounds.treated;
    }

    private void fill(Outset.Place place) {
        var filling = new Filling(place);
        var kept = 0;
        for (var at = 0; at < waiting; at++) {
            var one = line[at];
            if (filling.isFull(least)) {
                System.arraycopy(line, at, line, kept, waiting - at);
                kept += waiting - at;
                break;
            }
            var urgent = kinds.get(cases.tier(one)).urgent();
            if (notBefore[one] > place.day() || !filling.fits(cases.planned(one), urgent)) {
                line[kept++] = one;
            } else if (misses[one] > 0) {
                misses[one]--;
                notBefore[one] = place.day() + 1;
                filling.take(cases.planned(one), urgent);
                line[kept++] = one;
            } else {
                treated[one] = place.day();
                filling.take(cases.minutes(one), urgent);
            }
        }
        waiting = kept;
    }

    /** To its place in the line. */
    private void queueUp(int one) {
        var at = waiting++;
        while (at > 0 && order[line[at - 1]] > order[one]) {
            line[at] = line[at - 1];
            at--;
        }
        line[at] = one;
    }

    private int[] byReadiness() {
        var keys = new long[cases.size()];
        for (var at = 0; at < keys.length; at++) {
            keys[at] = ((long) cases.ready(at) << Integer.SIZE) + at;
        }
        Arrays.sort(keys);
        return Arrays.stream(keys).mapToInt(key -> (int) key).toArray();
    }

    /** Tier before target date before the day of being received; what is less comes first. */
    private long order(int at) {
        return ((long) cases.tier(at) << (2 * DATES))
                + ((long) (cases.target(at) + FAR) << DATES)
                + (cases.received(at) + FAR);
    }
}
