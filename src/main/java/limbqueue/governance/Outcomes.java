package limbqueue.governance;

import java.util.Comparator;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import limbqueue.preparation.CaseOutcome;

/**
 * How procedures ended, against what had been flagged. A case with several flags counts for each.
 *
 * @param all every recorded case
 * @param unflagged cases in which nothing was flagged
 * @param byFlag by the id of each flag, most cases first
 */
public record Outcomes(Line all, Line unflagged, List<Flagged> byFlag) {

    public record Flagged(String flag, Line line) {}

    /** @param counts has every outcome */
    public record Line(Map<CaseOutcome, Integer> counts) {

        public int cases() {
            return counts.values().stream().mapToInt(Integer::intValue).sum();
        }

        /** How many ended in another way than planned. */
        public Proportion notAsPlanned() {
            return new Proportion(cases() - counts.getOrDefault(CaseOutcome.AS_PLANNED, 0), cases());
        }
    }

    public static Outcomes of(List<Course> courses, Period period) {
        var recorded = courses.stream()
                .filter(course -> course.endedIn(period) && course.outcome().isPresent())
                .toList();
        var byFlag = new HashMap<String, List<Course>>();
        recorded.forEach(course -> course.redFlags()
                .forEach(flag -> byFlag.merge(
                        flag,
                        List.of(course),
                        (some, more) ->
                                Stream.concat(some.stream(), more.stream()).toList())));
        return new Outcomes(
                line(recorded),
                line(recorded.stream()
                        .filter(course -> course.redFlags().isEmpty())
                        .toList()),
                byFlag.entrySet().stream()
                        .map(entry -> new Flagged(entry.getKey(), line(entry.getValue())))
                        .sorted(Comparator.comparing(
                                        (Flagged flagged) -> -flagged.line().cases())
                                .thenComparing(Flagged::flag))
                        .toList());
    }

    private static Line line(List<Course> courses) {
        var counts = new EnumMap<CaseOutcome, Integer>(CaseOutcome.class);
        for (var outcome : CaseOutcome.values()) {
            counts.put(outcome, 0);
        }
        courses.forEach(course -> counts.merge(course.outcome().orElseThrow(), 1, Integer::sum));
        return new Line(counts);
    }
}
