package limbqueue.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Stream;
import limbqueue.command.BankHolidays.Known;
import limbqueue.command.BankHolidays.Unknown;
import org.junit.jupiter.api.Test;

class BankHolidaysTest {

    private static BankHolidays of(String code) {
        var outcome = BankHolidays.of(code);
        assertThat(outcome).isInstanceOf(Known.class);
        return ((Known) outcome).holidays();
    }

    /** Those of 2026 that are no Sundays. */
    private static List<LocalDate> of2026(String code) {
        var holidays = of(code);
        return LocalDate.of(2026, 1, 1)
                .datesUntil(LocalDate.of(2027, 1, 1))
                .filter(day -> day.getDayOfWeek() != DayOfWeek.SUNDAY
                        && holidays.on(day).isPresent())
                .toList();
    }

    private static List<LocalDate> days(String... days) {
        return Stream.of(days).map(day -> LocalDate.parse("2026-" + day)).toList();
    }

    /** Arbeitsruhegesetz, section 7 (2), value from memory; Easter is on 5 April in 2026. 1 November is a Sunday. */
    @Test
    void thoseOfAustriaAreThoseOfItsLaw() {
        assertThat(of2026("AT"))
                .isEqualTo(days(
                        "01-01", "01-06", "04-06", "05-01", "05-14", "05-25", "06-04", "08-15", "10-26", "12-08",
                        "12-25", "12-26"));
        assertThat(of("AT").on(LocalDate.of(2026, 4, 6))).contains("Easter Monday");
    }

    /** Feiertagsgesetz of Bavaria, article 1, value from memory: beside those of Germany, Epiphany and Corpus Christi. */
    @Test
    void aRegionHasThoseOfItsCountryAndItsOwn() {
        assertThat(of2026("DE"))
                .isEqualTo(days("01-01", "04-03", "04-06", "05-01", "05-14", "05-25", "10-03", "12-25", "12-26"));
        assertThat(of2026("de-by")).containsAll(of2026("DE")).containsAll(days("01-06", "06-04"));
    }

    @Test
    void aCodeThatIsNotKnownIsToldWithThoseThatAre() {
        assertThat(BankHolidays.of("XX"))
                .isEqualTo(new Unknown(
                        "No bank holidays are known of \"XX\". Write the two letters of a country, such as AT, and"
                                + " after a hyphen a region, such as DE-BY."));
        assertThat(BankHolidays.of("DE-XX"))
                .isInstanceOfSatisfying(
                        Unknown.class,
                        unknown -> assertThat(unknown.text())
                                .startsWith("No region \"XX\" is known in DE-XX. Those there are: BB, BE, BW, BY, "));
    }
}
