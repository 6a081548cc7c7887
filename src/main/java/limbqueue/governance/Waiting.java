package limbqueue.governance;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Tier;

/** How long patients waited, by the tier decided, most urgent first; tiers without a patient are left out. */
public record Waiting(List<Line> byTier) {

    /**
     * One tier.
     *
     * @param ended how many waits ended in the period
     * @param days of those waits; empty where there is none
     * @param late how many of them ended after the target date
     * @param waiting how many had been decided by the last day of the period and not ended
     * @param overdue how many of these were beyond the target date on that day
     */
    public record Line(Tier tier, int ended, Optional<Spread> days, Proportion late, int waiting, int overdue) {}

    public static Waiting of(List<Course> courses, Period period) {
        return new Waiting(Arrays.stream(Tier.values())
                .map(tier -> line(
                        tier,
                        courses.stream().filter(course -> course.tier() == tier).toList(),
                        period))
                .filter(line -> line.ended() + line.waiting() > 0)
                .toList());
    }

    private static Line line(Tier tier, List<Course> courses, Period period) {
        var ended = courses.stream().filter(course -> course.endedIn(period)).toList();
        var waiting = courses.stream()
                .filter(course -> course.waitingAfter(period.to()))
                .toList();
        return new Line(
                tier,
                ended.size(),
                Spread.of(
                        ended.stream().flatMap(course -> course.days().stream()).toList()),
                new Proportion(late(ended, period), ended.size()),
                waiting.size(),
                late(waiting, period));
    }

    private static int late(List<Course> courses, Period period) {
        return Math.toIntExact(
                courses.stream().filter(course -> course.lateOn(period.to())).count());
    }
}
