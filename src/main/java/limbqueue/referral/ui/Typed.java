package limbqueue.referral.ui;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads what was typed into a field. What cannot be read with certainty stays as it was typed. */
final class Typed {

    private static final Pattern NUMBER = Pattern.compile("([-\u2212]?)(\\d+)(?:[.,](\\d+))?");

    /** Digits in threes, set apart by spaces: {@code 12 000}. */
    private static final Pattern SPACED = Pattern.compile("\\d{1,3}(?:[ \u00a0\u2009\u202f]\\d{3})+");

    /** A comma before exactly three digits: a decimal comma to some and a thousand to others. */
    private static final Pattern EITHER = Pattern.compile("[-\u2212]?[1-9]\\d{0,2},\\d{3}");

    private static final Pattern ISO = Pattern.compile("(\\d{4})-(\\d{1,2})-(\\d{1,2})");
    private static final Pattern DOTTED = Pattern.compile("(\\d{1,2})\\.\\s?(\\d{1,2})\\.\\s?(\\d{4})");
    private static final Pattern SLASHED = Pattern.compile("(\\d{1,2})/(\\d{1,2})/(\\d{4})");
    private static final Pattern NAMED = Pattern.compile("(\\d{1,2})\\.?\\s+(\\p{L}{3,})\\.?\\s+(\\d{4})");
    private static final Pattern TIME_AFTER = Pattern.compile("(.*\\S)(?:\\s+|T)(\\d{1,2})[:.](\\d{2})");

    private static final List<String> MONTHS = List.of(
            "january",
            "february",
            "march",
            "april",
            "may",
            "june",
            "july",
            "august",
            "september",
            "october",
            "november",
            "december");

    /** What has no shape of its own and no place in text: control characters, and halves of a character. */
    private static final Pattern NOT_TEXT = Pattern.compile("[\\p{Cc}\\p{Cs}&&[^\\t\\n\\r]]");

    private Typed() {}

    /** {@code typed} with a replacement sign where something stood that nobody could see: it can be found and mended. */
    static String visible(String typed) {
        return NOT_TEXT.matcher(typed).replaceAll("\uFFFD");
    }

    /** A {@link Number}, with a decimal point or comma; else {@code typed} itself. */
    static Object amount(String typed) {
        var stripped = typed.strip();
        if (EITHER.matcher(stripped).matches()) {
            return typed;
        }
        if (SPACED.matcher(stripped).matches()) {
            stripped = stripped.replaceAll("\\D", "");
        }
        var number = NUMBER.matcher(stripped);
        if (!number.matches()) {
            return typed;
        }
        var sign = number.group(1).isEmpty() ? "" : "-";
        var decimals = number.group(3);
        if (decimals == null && number.group(2).length() < 10) {
            return Integer.valueOf(sign + number.group(2));
        }
        return Double.valueOf(sign + number.group(2) + "." + (decimals == null ? "0" : decimals));
    }

    /**
     * A day as ISO 8601 text, read from {@code 2026-03-02}, {@code 2.3.2026}, {@code 2 Mar 2026} or {@code 25/3/2026}; else
     * {@code typed} itself, as for {@code 2/3/2026}, which is a day in March to some and in February to others.
     *
     * @param time whether a time of day may follow
     */
    static String day(String typed, boolean time) {
        var stripped = typed.strip();
        if (time) {
            var timed = TIME_AFTER.matcher(stripped);
            if (timed.matches()) {
                var day = dayAlone(timed.group(1));
                var clock = clock(timed.group(2), timed.group(3));
                return day.isPresent() && clock.isPresent() ? day.get() + "T" + clock.get() : typed;
            }
        }
        return dayAlone(stripped).map(LocalDate::toString).orElse(typed);
    }

    private static Optional<LocalDate> dayAlone(String text) {
        var iso = ISO.matcher(text);
        if (iso.matches()) {
            return date(iso, 1, iso.group(2), 3);
        }
        var dotted = DOTTED.matcher(text);
        if (dotted.matches()) {
            return date(dotted, 3, dotted.group(2), 1);
        }
        var slashed = SLASHED.matcher(text);
        if (slashed.matches()) {
            var first = Integer.parseInt(slashed.group(1));
            var second = Integer.parseInt(slashed.group(2));
            return first > 12 || first == second ? date(slashed, 3, slashed.group(2), 1) : Optional.empty();
        }
        var named = NAMED.matcher(text);
        if (named.matches()) {
            var name = named.group(2).toLowerCase(Locale.ROOT);
            for (var month = 1; month <= 12; month++) {
                if (MONTHS.get(month - 1).startsWith(name)) {
                    return date(named, 3, String.valueOf(month), 1);
                }
            }
        }
        return Optional.empty();
    }

    private static Optional<LocalDate> date(Matcher matcher, int year, String month, int day) {
        try {
            return Optional.of(LocalDate.of(
                    Integer.parseInt(matcher.group(year)),
                    Integer.parseInt(month),
                    Integer.parseInt(matcher.group(day))));
        } catch (DateTimeException noSuchDay) {
            return Optional.empty();
        }
    }

    private static Optional<LocalTime> clock(String hour, String minute) {
        try {
            return Optional.of(LocalTime.of(Integer.parseInt(hour), Integer.parseInt(minute)));
        } catch (DateTimeException noSuchTime) {
            return Optional.empty();
        }
    }
}
