package limbqueue.referral.ui;

import java.time.Instant;
import java.time.LocalDate;
import java.time.Period;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/** Days, dates and ages as the screens say them. */
final class TimeWords {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter DATE_AND_TIME =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH);

    private TimeWords() {}

    /** As {@code 9 Dec 2026}. */
    static String date(LocalDate date) {
        return DATE.format(date);
    }

    /** As {@code 9 Dec 2026, 14:05}, by the clock of the practice. */
    static String moment(Instant at) {
        return DATE_AND_TIME.format(at.atZone(ZoneId.systemDefault()));
    }

    /** How far off a target is: {@code today}, {@code tomorrow}, {@code in 14 days}, {@code 3 days late}. */
    static String until(LocalDate target, LocalDate today) {
        var days = ChronoUnit.DAYS.between(today, target);
        if (days < 0) {
            return days(-days) + " late";
        }
        if (days == 0) {
            return "today";
        }
        return days == 1 ? "tomorrow" : "in " + days(days);
    }

    /** How long somebody has waited: {@code since today}, {@code 1 day}, {@code 13 days}. */
    static String waited(LocalDate since, LocalDate today) {
        var days = ChronoUnit.DAYS.between(since, today);
        return days <= 0 ? "since today" : days(days);
    }

    /** {@code 1 day}, {@code 14 days}. */
    static String days(long days) {
        return days == 1 ? "1 day" : days + " days";
    }

    /** Whole years on {@code today}. */
    static String age(LocalDate born, LocalDate today) {
        return Integer.toString(Period.between(born, today).getYears());
    }
}
