package limbqueue.shell;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/** Days and moments as the screens say them. */
public final class DayWords {

    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter MOMENT =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH).withZone(ZoneId.systemDefault());

    private DayWords() {}

    public static String date(LocalDate date) {
        return DATE.format(date);
    }

    public static String moment(Instant at) {
        return MOMENT.format(at);
    }

    /** How far off a day is: {@code today}, {@code tomorrow}, {@code in 5 days}, {@code 3 days late}. */
    public static String until(LocalDate day, LocalDate today) {
        var days = today.until(day, ChronoUnit.DAYS);
        if (days < 0) {
            return days == -1 ? "1 day late" : -days + " days late";
        }
        return days == 0 ? "today" : days == 1 ? "tomorrow" : "in " + days + " days";
    }
}
