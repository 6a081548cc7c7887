package limbqueue.prospect;

import java.util.List;
import java.util.OptionalDouble;
import limbqueue.forecast.Estimate;
import limbqueue.forecast.HeldBack.Point;
import limbqueue.governance.RangePicture;
import limbqueue.shell.CountedWords;

/** What is weighed when time is held, as two pictures with the same rows: how many urgent cases find room, and what is wasted. */
public final class HeldPicture {

    private static final String RANGE =
            "Each row is a choice of minutes a week. The dot is the mean, the line what chance leaves open by simulation, 95 of 100.";

    /** Quantile of 97.5 % of the standard normal distribution (value from memory). */
    private static final double BOTH_SIDES = 1.96;

    private HeldPicture() {}

    /** The share of urgent cases that find room within their days. */
    public static RangePicture found(List<Point> points, int releaseDays) {
        return new RangePicture(
                "held-found",
                "Urgent cases that find held room in time",
                RANGE,
                "Share of urgent cases",
                true,
                points.stream()
                        .filter(point -> point.releaseDays() == releaseDays)
                        .flatMap(point -> point.found().stream().map(found -> row(point, found, 1)))
                        .toList());
    }

    /** Minutes of a week that are held and used by nobody. */
    public static RangePicture wasted(List<Point> points, int releaseDays) {
        return new RangePicture(
                "held-wasted",
                "Held minutes that nobody uses",
                RANGE,
                "Minutes a week",
                false,
                points.stream()
                        .filter(point -> point.releaseDays() == releaseDays)
                        .map(point -> row(point, point.wasted(), Double.MAX_VALUE))
                        .toList());
    }

    private static RangePicture.Row row(Point point, Estimate estimate, double most) {
        var around = BOTH_SIDES * estimate.error();
        return new RangePicture.Row(
                CountedWords.of(point.minutes(), "minute") + " a week",
                Math.max(0, estimate.value() - around),
                estimate.value(),
                Math.min(most, estimate.value() + around),
                OptionalDouble.empty());
    }
}
