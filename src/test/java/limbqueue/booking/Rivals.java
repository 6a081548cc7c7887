package limbqueue.booking;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * How a practice books without a planner: one case after the other, each step into the first session that can take it and still
 * ends in time in nine of ten. Nothing that has been booked is moved again.
 */
public final class Rivals {

    private Rivals() {}

    /** As the references were given: first come, first served. */
    public static int[][] firstComeFirstServed(Waiting waiting) {
        return book(waiting, Comparator.comparing(WaitingCase::reference));
    }

    /** By tier, then by target date. */
    public static int[][] tierThenDate(Waiting waiting) {
        return book(
                waiting,
                Comparator.comparing(WaitingCase::tier)
                        .thenComparing(WaitingCase::target)
                        .thenComparing(WaitingCase::reference));
    }

    private static int[][] book(Waiting waiting, Comparator<WaitingCase> order) {
        var judge = new HandJudge(waiting);
        var expected = new long[waiting.sessions().size()];
        var variance = new long[waiting.sessions().size()];
        var places = new int[waiting.cases().size()][];
        for (var c : turns(waiting, order)) {
            var of = waiting.cases().get(c);
            var path = new int[of.steps().size()];
            Arrays.fill(path, HandJudge.NONE);
            places[c] = path;
            for (var s = 0; s < path.length; s++) {
                var minutes = of.steps().get(s).minutes();
                for (var t = 0; t < expected.length && path[s] == HandJudge.NONE; t++) {
                    path[s] = t;
                    if (!judge.impossible(of, path, s).isEmpty()
                            || StepMinutes.overrun(
                                            expected[t] + minutes.expected(),
                                            variance[t] + minutes.variance(),
                                            waiting.sessions().get(t).minutes())
                                    > 0) {
                        path[s] = HandJudge.NONE;
                    }
                }
                if (path[s] == HandJudge.NONE) {
                    break;
                }
                expected[path[s]] += minutes.expected();
                variance[path[s]] += minutes.variance();
            }
        }
        return places;
    }

    private static List<Integer> turns(Waiting waiting, Comparator<WaitingCase> order) {
        return IntStream.range(0, waiting.cases().size())
                .boxed()
                .sorted(Comparator.comparing(waiting.cases()::get, order))
                .toList();
    }
}
