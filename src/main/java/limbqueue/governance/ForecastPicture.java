package limbqueue.governance;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import limbqueue.forecast.Band;
import limbqueue.forecast.Forecast;
import limbqueue.shell.DayWords;
import limbqueue.triage.Tier;

/** Pictures of what is to be expected of one tier: a row for each week, the dot at the mean, the line over 8 of 10 runs. */
public final class ForecastPicture {

    private static final String RANGE = "The dot is the mean, the line holds 8 of 10 simulated courses.";

    private ForecastPicture() {}

    /**
     * Days waited by those who are treated in each week; weeks in which nobody is expected to be are left out.
     *
     * @param days that the policy gives the tier
     */
    public static RangePicture waits(Tier tier, List<Forecast.Line> lines, int days) {
        return new RangePicture(
                id("forecast-waits", tier),
                "Days waited, %s".formatted(words(tier)),
                RANGE + " The bar across is the days that the policy gives the tier.",
                "Days",
                false,
                of(tier, lines)
                        .flatMap(line ->
                                line.waited().stream().map(wait -> row(line, wait.days(), OptionalDouble.of(days))))
                        .toList());
    }

    /** Target dates that lie in each week and are missed. */
    public static RangePicture missed(Tier tier, List<Forecast.Line> lines) {
        return new RangePicture(
                id("forecast-missed", tier),
                "Target dates missed, %s".formatted(words(tier)),
                RANGE,
                "Dates missed",
                false,
                of(tier, lines)
                        .map(line -> row(line, line.breaches(), OptionalDouble.empty()))
                        .toList());
    }

    /** Patients who wait at the end of each week. */
    public static RangePicture waiting(Tier tier, List<Forecast.Line> lines) {
        return new RangePicture(
                id("forecast-waiting", tier),
                "Waiting at the end of the week, %s".formatted(words(tier)),
                RANGE,
                "Patients",
                false,
                of(tier, lines)
                        .map(line -> row(line, line.waiting(), OptionalDouble.empty()))
                        .toList());
    }

    private static Stream<Forecast.Line> of(Tier tier, List<Forecast.Line> lines) {
        return lines.stream().filter(line -> line.tier() == tier);
    }

    private static RangePicture.Row row(Forecast.Line line, Band band, OptionalDouble mark) {
        return new RangePicture.Row(
                "Week %d, from %s".formatted(line.week(), DayWords.date(line.begins())),
                band.low(),
                band.expected(),
                band.high(),
                mark);
    }

    private static String id(String of, Tier tier) {
        return of + "-" + tier.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    private static String words(Tier tier) {
        return tier.words().toLowerCase(Locale.ROOT);
    }
}
