package limbqueue.reading;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Dates as doctors write them. 03/04/2026 is two dates in two countries, so it is none unless the letter shows which it
 * means; 17/04/2026 and 04/17/2026 are one.
 */
final class Dates {

    private static final String MONTH =
            "(jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)\\.?";
    private static final Map<String, Integer> MONTHS = Map.ofEntries(
            Map.entry("jan", 1),
            Map.entry("feb", 2),
            Map.entry("mar", 3),
            Map.entry("apr", 4),
            Map.entry("may", 5),
            Map.entry("jun", 6),
            Map.entry("jul", 7),
            Map.entry("aug", 8),
            Map.entry("sep", 9),
            Map.entry("oct", 10),
            Map.entry("nov", 11),
            Map.entry("dec", 12));

    private static final Pattern ANY = Pattern.compile(
            "\\b(?<iy>(?:19|20)\\d\\d)-(?<im>\\d\\d?)-(?<id>\\d\\d?)\\b"
                    + "|\\b(?<d>\\d{1,2})(?: ?(?:st|nd|rd|th)\\b)?(?: of| day of)?[ -]?(?<m>" + MONTH
                    + ")(?:,? ?-?(?<y>(?:19|20)\\d\\d|'?\\d\\d(?![\\d/%]|[.:]\\d| ?(?:m|mg|mm|year|yard|metre|week|day|month|%)\\b)))?(?![a-z])"
                    + "|\\b(?<m2>" + MONTH
                    + ") ?(?:the )?(?<d2>\\d{1,2})(?: ?(?:st|nd|rd|th)\\b)?(?![\\d/%]|[.:]\\d| ?(?:m|mg|mm|year|yard|metre|week|day|month)\\b)(?:,? ?(?<y2>(?:19|20)\\d\\d|'\\d\\d))?(?![\\d])"
                    + "|(?<![\\d/.])(?<n1>\\d{1,2}) ?[/.-] ?(?<n2>\\d{1,2}) ?[/.-] ?(?<n3>(?:19|20)\\d\\d|\\d\\d)(?![\\d/]|\\.\\d)");

    /** A date found, or a day and month that need a year. */
    record Found(int start, int end, Optional<LocalDate> date, int day, int month) {
        boolean full() {
            return date.isPresent();
        }
    }

    private final Optional<Boolean> dayFirst;
    /** Whether the form says the order in words; else it is seen from the letter's other dates, and counts for whole years. */
    private final boolean said;

    private Dates(Optional<Boolean> dayFirst, boolean said) {
        this.dayFirst = dayFirst;
        this.said = said;
    }

    /** A number of a date that can be read one way only: 22/10/1957, 10/22/1957. */
    private static final Pattern ONE_WAY =
            Pattern.compile("(?<![\\d/.-])(\\d{1,2})([/.-])(\\d{1,2})\\2(?:(?:19|20)\\d\\d|\\d\\d)(?![\\d/-]|\\.\\d)");

    /** Looks whether the letter's form says the order of day and month, or else all its dates that can be read one way only. */
    static Dates of(String folded) {
        if (folded.contains("dd/mm")
                || folded.contains("dd-mm")
                || folded.contains("dd.mm")
                || folded.contains("d/m/y")
                || folded.contains("day/month/year")
                || folded.contains("day-month-year")) {
            return new Dates(Optional.of(true), true);
        }
        if (folded.contains("month/day/year") || folded.contains("mm/dd") || folded.contains("mm-dd")) {
            return new Dates(Optional.of(false), true);
        }
        return new Dates(shown(folded), false);
    }

    private static Optional<Boolean> shown(String folded) {
        var dayFirst = 0;
        var monthFirst = 0;
        var match = ONE_WAY.matcher(folded);
        while (match.find()) {
            var first = Integer.parseInt(match.group(1));
            var second = Integer.parseInt(match.group(3));
            dayFirst += first > 12 && first <= 31 && second <= 12 ? 1 : 0;
            monthFirst += second > 12 && second <= 31 && first <= 12 ? 1 : 0;
        }
        return dayFirst > 0 == monthFirst > 0 ? Optional.empty() : Optional.of(dayFirst > 0);
    }

    List<Found> in(String plain) {
        return in(plain, 0, plain.length());
    }

    List<Found> in(String plain, int start, int end) {
        var found = new ArrayList<Found>();
        if (plain.chars().noneMatch(c -> c >= '0' && c <= '9')) {
            return found;
        }
        var match = ANY.matcher(plain).region(start, end);
        while (match.find()) {
            read(match).ifPresent(found::add);
        }
        return found;
    }

    private Optional<Found> read(Matcher match) {
        if (match.group("iy") != null) {
            return date(match, number(match, "iy"), number(match, "im"), number(match, "id"));
        }
        if (match.group("m") != null) {
            return named(match, match.group("d"), match.group("m"), match.group("y"));
        }
        if (match.group("m2") != null) {
            return named(match, match.group("d2"), match.group("m2"), match.group("y2"));
        }
        var first = number(match, "n1");
        var second = number(match, "n2");
        var year = match.group("n3").length() == 4 ? number(match, "n3") : twoDigits(number(match, "n3"));
        if (first > 12 && second <= 12) {
            return date(match, year, second, first);
        }
        if (second > 12 && first <= 12) {
            return date(match, year, first, second);
        }
        if (first == second) {
            return date(match, year, first, second);
        }
        if (!said && match.group("n3").length() < 4) {
            return Optional.empty();
        }
        return dayFirst.flatMap(days -> days ? date(match, year, second, first) : date(match, year, first, second));
    }

    private static int twoDigits(int year) {
        return year <= 40 ? 2000 + year : 1900 + year;
    }

    private Optional<Found> named(
            Matcher match, String day, String month, @org.jspecify.annotations.Nullable String year) {
        var number = MONTHS.get(month.substring(0, 3));
        var dayNumber = Integer.parseInt(day);
        if (number == null || dayNumber < 1 || dayNumber > 31) {
            return Optional.empty();
        }
        if (year == null) {
            return Optional.of(new Found(match.start(), match.end(), Optional.empty(), dayNumber, number));
        }
        var digits = year.replace("'", "");
        var full = digits.length() == 2 ? twoDigits(Integer.parseInt(digits)) : Integer.parseInt(digits);
        return date(match, full, number, dayNumber);
    }

    private static int number(Matcher match, String group) {
        return Integer.parseInt(match.group(group));
    }

    private static Optional<Found> date(Matcher match, int year, int month, int day) {
        try {
            return Optional.of(
                    new Found(match.start(), match.end(), Optional.of(LocalDate.of(year, month, day)), day, month));
        } catch (DateTimeException impossible) {
            return Optional.empty();
        }
    }

    /** The year of a date whose day and month cannot be told apart, 4/5/26. */
    static Optional<Integer> year(String plain) {
        var match = Fit.of("(?<![\\d/.])\\d{1,2}[/.-]\\d{1,2}[/.-]((?:20)?\\d\\d)(?![\\d/.])")
                .matcher(plain);
        return match.find() && match.start() <= 24 && Integer.parseInt(match.group(1)) % 100 <= 40
                ? Optional.of(Integer.parseInt(match.group(1)) % 100 + 2000)
                : Optional.empty();
    }

    /** The last such day on or before {@code letter}. */
    static Optional<LocalDate> past(Found found, Optional<LocalDate> letter) {
        return found.date()
                .or(() -> letter.flatMap(
                        day -> day(found, day.getYear()).map(date -> date.isAfter(day) ? date.minusYears(1) : date)));
    }

    /** The dates of something past between {@code start} and {@code end}, each with its year; of what is said to be to come, none. */
    List<Found> past(Page page, String plain, int start, int end) {
        return in(plain, start, end).stream()
                .map(found -> found.full()
                        ? found
                        : past(found, page.written)
                                .map(day -> new Found(
                                        found.start(), found.end(), Optional.of(day), found.day(), found.month()))
                                .orElse(found))
                .filter(Found::full)
                .toList();
    }

    /** The next such day on or after {@code letter}. */
    static Optional<LocalDate> next(Found found, Optional<LocalDate> letter) {
        return found.date()
                .or(() -> letter.flatMap(
                        day -> day(found, day.getYear()).map(date -> date.isBefore(day) ? date.plusYears(1) : date)));
    }

    private static Optional<LocalDate> day(Found found, int year) {
        try {
            return Optional.of(LocalDate.of(year, found.month(), found.day()));
        } catch (DateTimeException impossible) {
            return Optional.empty();
        }
    }
}
