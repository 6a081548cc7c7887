package limbqueue.command;

import de.focus_shift.jollyday.core.CalendarHierarchy;
import de.focus_shift.jollyday.core.HolidayManager;
import de.focus_shift.jollyday.core.HolidayType;
import de.focus_shift.jollyday.core.ManagerParameters;
import java.time.LocalDate;
import java.time.Year;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import limbqueue.document.CheckedJson;

/**
 * The bank holidays of a country or of a region in it, as the calendar library Jollyday has them; what is observed and no
 * holiday by law is none.
 */
final class BankHolidays {

    /** What comes of a code. */
    sealed interface Outcome {}

    record Known(BankHolidays holidays) implements Outcome {}

    /** @param text what is wrong with the code and what to do */
    record Unknown(String text) implements Outcome {}

    private final HolidayManager calendar;
    private final String[] region;

    private BankHolidays(HolidayManager calendar, String[] region) {
        this.calendar = calendar;
        this.region = region;
    }

    /** @param code a country by its code of ISO 3166-1, and regions of it after hyphens, in capitals or not */
    static Outcome of(String code) {
        var parts = code.toLowerCase(Locale.ROOT).split("-", -1);
        var countries = HolidayManager.getSupportedCalendarCodes().stream()
                .map(country -> country.toLowerCase(Locale.ROOT))
                .filter(country -> country.length() == 2)
                .sorted()
                .toList();
        if (!countries.contains(parts[0])) {
            return new Unknown(
                    "No bank holidays are known of \"%s\". Write the two letters of a country, such as AT, and after a hyphen a region, such as DE-BY."
                            .formatted(code));
        }
        return withItsLoader(() -> {
            var calendar = HolidayManager.getInstance(ManagerParameters.create(parts[0]));
            var region = Arrays.copyOfRange(parts, 1, parts.length);
            return unknownRegion(calendar.getCalendarHierarchy(), region, code)
                    .<Outcome>map(Unknown::new)
                    .orElseGet(() -> new Known(new BankHolidays(calendar, region)));
        });
    }

    private static Optional<String> unknownRegion(CalendarHierarchy country, String[] region, String code) {
        var at = country;
        for (var part : region) {
            var within = at.getChildren();
            var inner = within.get(part);
            if (inner == null) {
                var names = within.keySet().stream()
                        .map(name -> name.toUpperCase(Locale.ROOT))
                        .sorted()
                        .toList();
                return Optional.of("No region \"%s\" is known in %s. %s"
                        .formatted(
                                part.toUpperCase(Locale.ROOT),
                                code,
                                names.isEmpty()
                                        ? "Leave it out."
                                        : "Those there are: %s.%s"
                                                .formatted(
                                                        String.join(", ", names),
                                                        CheckedJson.didYouMean(part.toUpperCase(Locale.ROOT), names))));
            }
            at = inner;
        }
        return Optional.empty();
    }

    /** What {@code day} is called if it is a bank holiday. */
    Optional<String> on(LocalDate day) {
        List<String> names = withItsLoader(() -> calendar.getHolidays(Year.of(day.getYear()), region).stream()
                .filter(holiday -> holiday.getDate().equals(day) && holiday.getType() != HolidayType.OBSERVANCE)
                .map(holiday -> holiday.getDescription(Locale.ENGLISH))
                .distinct()
                .sorted()
                .toList());
        return names.isEmpty() ? Optional.empty() : Optional.of(String.join(" and ", names));
    }

    /** The library looks for its files through the loader of the thread, which need not know the one that has them. */
    private static <T> T withItsLoader(Supplier<T> work) {
        var thread = Thread.currentThread();
        var before = thread.getContextClassLoader();
        thread.setContextClassLoader(BankHolidays.class.getClassLoader());
        try {
            return work.get();
        } finally {
            thread.setContextClassLoader(before);
        }
    }
}
