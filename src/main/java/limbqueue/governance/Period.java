package limbqueue.governance;

import java.time.LocalDate;
import java.time.Month;
import java.util.Optional;

/** Days from {@code from} to {@code to}, both included; {@code from} is not after {@code to}. */
public record Period(LocalDate from, LocalDate to) {

    public Period {
        if (from.isAfter(to)) {
            throw new IllegalArgumentException("A period begins before it ends: " + from + ", " + to);
        }
    }

    /** Empty where {@code from} is after {@code to}. */
    public static Optional<Period> of(LocalDate from, LocalDate to) {
        return from.isAfter(to) ? Optional.empty() : Optional.of(new Period(from, to));
    }

    /** The twelve months that end today. */
    public static Period lastYear(LocalDate today) {
        return new Period(today.minusYears(1).plusDays(1), today);
    }

    /** The last whole half of a calendar year that ends with this period or before. */
    public Period lastHalfYear() {
        var after = to.plusDays(1);
        var end = LocalDate.of(after.getYear(), after.getMonthValue() > 6 ? Month.JULY : Month.JANUARY, 1);
        return new Period(end.minusMonths(6), end.minusDays(1));
    }

    public boolean contains(LocalDate day) {
        return !day.isBefore(from) && !day.isAfter(to);
    }
}
