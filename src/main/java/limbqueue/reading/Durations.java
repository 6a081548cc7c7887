package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Spans of time in days: a week is 7, a month 30, a year 365, as the format's numbers are used. "Several weeks" is no
 * number and so is no duration, nor is "3 to 4 weeks".
 */
final class Durations {

    private static final Pattern DURATION =
            Pattern.compile("(?<![\\d.,/-])(?:(?<half>half (?:a|an)|1/2(?: a| an)?) (?<hu>week|month|year|day)"
                    + "|(?<a>a|an) (?<fort>fortnight)|(?<fn>\\d+) fortnights?"
                    + "|(?<ah>a year and a half|a month and a half|1 and a half years?|1 and a half months?|1 1/2 years?|1 ?1/2 months?)"
                    + "|(?<n>\\d{1,3}(?:\\.\\d)?|a|an|(?<=(?:for|over|during) the )(?:past|last))(?:[ -]|(?<=\\d))(?:(?:full|whole|good|solid|long|calendar|or so) )?(?<u>week|month|year|day)(?:s|ly)?\\b(?! and a half)(?!(?<=year)s?[ -]?old\\b)(?! of age)"
                    + "|(?:x ?)?(?<sn>\\d{1,2}) ?/ ?(?<su>7|52|12)(?![\\d/]))");

    /** A duration found, with where it stands. */
    record Found(int start, int end, int days, String unit) {}

    private Durations() {}

    static List<Found> in(String plain, int start, int end) {
        var found = new ArrayList<Found>();
        var match = DURATION.matcher(plain).region(start, end).useTransparentBounds(true);
        while (match.find()) {
            if (!isRange(plain, match.start())) {
                found.add(read(match));
            }
        }
        return found;
    }

    private static boolean isRange(String plain, int start) {
        var before = plain.substring(Math.max(0, start - 6), start);
        return Fit.matches(before, ".*\\d ?(?:-|to|or|/) ?") || before.endsWith("every ") || before.endsWith(" few ");
    }

    private static Found read(Matcher match) {
        if (match.group("half") != null) {
            var unit = match.group("hu");
            return new Found(
                    match.start(), match.end(), unit.equals("year") ? 182 : unit.equals("month") ? 15 : 4, unit);
        }
        if (match.group("fort") != null) {
            return new Found(match.start(), match.end(), 14, "week");
        }
        if (match.group("fn") != null) {
            return new Found(match.start(), match.end(), 14 * Integer.parseInt(match.group("fn")), "week");
        }
        if (match.group("ah") != null) {
            return match.group("ah").contains("year")
                    ? new Found(match.start(), match.end(), 547, "year")
                    : new Found(match.start(), match.end(), 45, "month");
        }
        if (match.group("sn") != null) {
            var each = switch (match.group("su")) {
                case "7" -> 1;
                case "52" -> 7;
                default -> 30;
            };
            return new Found(match.start(), match.end(), each * Integer.parseInt(match.group("sn")), match.group("su"));
        }
        var number = Fit.matches(match.group("n"), "an?|past|last") ? 1 : Double.parseDouble(match.group("n"));
        var unit = match.group("u");
        var each = switch (unit) {
            case "day" -> 1;
            case "week" -> 7;
            case "month" -> 30;
            default -> 365;
        };
        return new Found(match.start(), match.end(), (int) Math.floor(number * each + 0.0001), unit);
    }
}
