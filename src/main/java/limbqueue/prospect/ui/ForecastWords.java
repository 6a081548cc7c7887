package limbqueue.prospect.ui;

import java.time.DayOfWeek;
import java.time.format.TextStyle;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import limbqueue.forecast.Band;
import limbqueue.forecast.Estimate;
import limbqueue.forecast.HeldBack.Point;
import limbqueue.prospect.TierOutlook;

/** Figures as this page and its tables say them. */
final class ForecastWords {

    private static final double BOTH_SIDES = 1.96;

    private ForecastWords() {}

    static String day(DayOfWeek day) {
        return day.getDisplayName(TextStyle.FULL, Locale.ENGLISH);
    }

    static String percent(double share) {
        return Math.round(100 * share) + " %";
    }

    static String tenths(double figure) {
        // Nothing has no sign.
        return String.format(Locale.ROOT, "%.1f", Math.round(figure * 10) / 10.0);
    }

    static String range(Band band) {
        return "%d to %d".formatted(Math.round(band.low()), Math.round(band.high()));
    }

    /** By days: {@code Tue 60, Fri 60}. */
    static String days(Map<DayOfWeek, Integer> minutes) {
        return minutes.entrySet().stream()
                .filter(entry -> entry.getValue() > 0)
                .map(entry -> entry.getKey().getDisplayName(TextStyle.SHORT, Locale.ENGLISH) + " " + entry.getValue())
                .collect(Collectors.joining(", "));
    }

    static List<String> overview(TierOutlook tier) {
        return List.of(
                tier.tier().words(),
                String.valueOf(tier.waiting()),
                tenths(tier.aWeek()),
                tenths(tier.due()),
                tier.breach().map(ForecastWords::percent).orElse("–"),
                tenths(tier.missed()),
                tenths(tier.waitingAtTheEnd().expected()),
                range(tier.waitingAtTheEnd()));
    }

    static List<String> choice(Point point, boolean outdone) {
        return List.of(
                String.valueOf(point.minutes()),
                String.valueOf(point.releaseDays()),
                point.minutes() == 0 ? "–" : days(point.held()),
                point.found().map(found -> percent(found.value())).orElse("–"),
                point.found()
                        .map(found -> "± " + percent(BOTH_SIDES * found.error()))
                        .orElse("–"),
                tenths(point.wasted().value()),
                around(point.wasted()),
                outdone ? "yes" : "no");
    }

    private static String around(Estimate estimate) {
        return "± " + tenths(BOTH_SIDES * estimate.error());
    }
}
