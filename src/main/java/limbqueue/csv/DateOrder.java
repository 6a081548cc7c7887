package limbqueue.csv;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.Optional;
import java.util.regex.Pattern;

/** In which order a table writes its dates. */
public enum DateOrder {
    YEAR_FIRST("year, month, day"),
    DAY_FIRST("day, month, year"),
    MONTH_FIRST("month, day, year");

    private static final Pattern YEAR_IN_FRONT = Pattern.compile("(\\d{4})[-./ ](\\d{1,2})[-./ ](\\d{1,2})(?:[T ].*)?");
    private static final Pattern YEAR_BEHIND = Pattern.compile("(\\d{1,2})[-./ ](\\d{1,2})[-./ ](\\d{4})");

    private final String words;

    DateOrder(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }

    /**
     * The date that a cell means. A year in front is always read as year, month, day; a year of two digits is none, since
     * nobody knows its century.
     */
    public Optional<LocalDate> read(String cell) {
        var front = YEAR_IN_FRONT.matcher(cell.strip());
        if (front.matches()) {
            return date(front.group(1), front.group(2), front.group(3));
        }
        var behind = YEAR_BEHIND.matcher(cell.strip());
        if (!behind.matches()) {
            return Optional.empty();
        }
        return switch (this) {
            case DAY_FIRST -> date(behind.group(3), behind.group(2), behind.group(1));
            case MONTH_FIRST -> date(behind.group(3), behind.group(1), behind.group(2));
            case YEAR_FIRST -> Optional.empty();
        };
    }

    private static Optional<LocalDate> date(String year, String month, String day) {
        try {
            return Optional.of(LocalDate.of(Integer.parseInt(year), Integer.parseInt(month), Integer.parseInt(day)));
        } catch (DateTimeException noDay) {
            return Optional.empty();
        }
    }
}
