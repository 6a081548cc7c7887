package limbqueue.referral.ui;

import java.time.LocalDate;
import java.time.Period;
import java.time.temporal.ChronoUnit;

/** Spans of time as the screens say them. */
final class TimeWords {

    private TimeWords() {}

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

    static boolean late(LocalDate target, LocalDate today) {
        return target.isBefore(today);
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

    /** Whole years on {@code today}, as {@code 74 years}. */
    static String age(LocalDate born, LocalDate today) {
        var years = Period.between(born, today).getYears();
        return years == 1 ? "1 year" : years + " years";
    }
}
