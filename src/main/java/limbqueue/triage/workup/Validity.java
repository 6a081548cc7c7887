package limbqueue.triage.workup;

import java.time.LocalDate;
import java.time.Period;
import java.util.Optional;

/**
 * How long a result may be used.
 *
 * @param words as {@code 30 days}
 */
record Validity(Period period, String words) {

    static Validity days(int days) {
        return new Validity(Period.ofDays(days), days == 1 ? "1 day" : days + " days");
    }

    static Validity months(int months) {
        return new Validity(Period.ofMonths(months), months == 1 ? "1 month" : months + " months");
    }

    LocalDate lastDay(LocalDate taken) {
        return taken.plus(period);
    }

    /** The first day on which a new result would still count on {@code day}; months differ in length. */
    LocalDate earliest(LocalDate day) {
        var earliest = day.minus(period);
        while (lastDay(earliest).isBefore(day)) {
            earliest = earliest.plusDays(1);
        }
        return earliest;
    }

    Held held(Optional<LocalDate> taken) {
        return new Held(taken.map(this::lastDay), this);
    }

    /** @param lastDay the last day on which what is held counts; empty when nothing is held, or nobody knows since when */
    record Held(Optional<LocalDate> lastDay, Validity validity) {}
}
