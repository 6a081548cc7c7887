package limbqueue.governance.ui;

import java.util.Locale;
import java.util.OptionalDouble;
import limbqueue.governance.Proportion;
import limbqueue.shell.FigureTable;

/** Figures as the page and its tables say them. */
final class Figures {

    static final String NOT_SHOWN = FigureTable.NOT_SHOWN;

    private Figures() {}

    /** {@code 84 %}, or a dash for a share of none. */
    static String percent(OptionalDouble share) {
        return share.isPresent() ? Math.round(100 * share.getAsDouble()) + " %" : "–";
    }

    /** {@code 78 to 89 %}, or a dash for none of none. */
    static String interval(Proportion proportion) {
        if (proportion.all() == 0) {
            return "–";
        }
        var interval = proportion.interval();
        return Math.round(100 * interval.low()) + " to " + Math.round(100 * interval.high()) + " %";
    }

    /** Days, with a half where there is one. */
    static String days(double days) {
        return number(days, Math.rint(days) == days ? 0 : 1);
    }

    /** A wait as part of the days allowed: {@code 0.85}. */
    static String ofAllowed(double part) {
        return number(part, 2);
    }

    private static String number(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }
}
