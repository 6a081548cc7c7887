package limbqueue.forecast;

import java.util.List;
import java.util.Locale;

/**
 * A forecast in words and figures, for a page or a file: what a picture of it shows, and what it cannot show. Days are those of
 * the calendar (ISO 8601), ranges hold 8 of 10 runs.
 *
 * @param rows as many cells each as {@code header}
 */
public record ForecastTable(List<String> header, List<List<String>> rows) {

    private static final String NOTHING = "";

    /** A row for each tier and week. */
    public static ForecastTable of(Forecast forecast) {
        return new ForecastTable(
                List.of(
                        "Tier",
                        "Week",
                        "Begins",
                        "Mean days waited",
                        "Days waited, 80 % range",
                        "Target dates",
                        "Probability of missing one",
                        "Dates missed",
                        "Dates missed, 80 % range",
                        "Waiting at the end",
                        "Waiting at the end, 80 % range"),
                forecast.lines().stream().map(ForecastTable::row).toList());
    }

    /** What a change brings each tier; a figure above 0 is a gain. */
    public static ForecastTable of(List<Forecast.Gain> gains) {
        return new ForecastTable(
                List.of(
                        "Tier",
                        "Fewer dates missed",
                        "Error of this by simulation",
                        "Fewer dates missed, 80 % range",
                        "Fewer waiting at the end",
                        "Fewer waiting at the end, 80 % range"),
                gains.stream()
                        .map(gain -> List.of(
                                gain.tier().words(),
                                tenths(gain.breaches().expected()),
                                hundredths(gain.meanBreaches().error()),
                                range(gain.breaches()),
                                tenths(gain.waiting().expected()),
                                range(gain.waiting())))
                        .toList());
    }

    private static List<String> row(Forecast.Line line) {
        return List.of(
                line.tier().words(),
                String.valueOf(line.week()),
                line.begins().toString(),
                line.waited().map(wait -> tenths(wait.days().expected())).orElse(NOTHING),
                line.waited().map(wait -> range(wait.days())).orElse(NOTHING),
                tenths(line.due()),
                line.breach().map(breach -> hundredths(breach.value())).orElse(NOTHING),
                tenths(line.breaches().expected()),
                range(line.breaches()),
                tenths(line.waiting().expected()),
                range(line.waiting()));
    }

    private static String range(Band band) {
        return "%s to %s".formatted(shortest(band.low()), shortest(band.high()));
    }

    /** Whole numbers without decimals. */
    private static String shortest(double figure) {
        return figure == Math.rint(figure) ? String.format(Locale.ROOT, "%.0f", figure) : tenths(figure);
    }

    private static String tenths(double figure) {
        // Nothing has no sign.
        return String.format(Locale.ROOT, "%.1f", Math.round(figure * 10) / 10.0);
    }

    private static String hundredths(double figure) {
        return String.format(Locale.ROOT, "%.2f", figure);
    }
}
