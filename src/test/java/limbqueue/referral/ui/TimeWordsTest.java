package limbqueue.referral.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TimeWordsTest {

    private static final LocalDate TODAY = LocalDate.of(2026, 3, 2);

    @ParameterizedTest
    @CsvSource({
        "2026-03-16, in 14 days",
        "2026-03-03, tomorrow",
        "2026-03-02, today",
        "2026-03-01, 1 day late",
        "2026-02-27, 3 days late"
    })
    void aTargetIsSoManyDaysOffOrLate(LocalDate target, String words) {
        assertThat(TimeWords.until(target, TODAY)).isEqualTo(words);
    }

    @ParameterizedTest
    @CsvSource({"2026-03-02, since today", "2026-03-01, 1 day", "2026-02-17, 13 days", "2026-03-05, since today"})
    void somebodyHasWaitedSoManyDays(LocalDate since, String words) {
        assertThat(TimeWords.waited(since, TODAY)).isEqualTo(words);
    }

    @Test
    void aTargetIsLateFromTheNextDayOn() {
        assertThat(TimeWords.late(TODAY, TODAY)).isFalse();
        assertThat(TimeWords.late(TODAY.minusDays(1), TODAY)).isTrue();
    }

    @ParameterizedTest
    @CsvSource({"1952-03-02, 74 years", "1952-03-03, 73 years", "2025-02-01, 1 year", "2026-03-01, 0 years"})
    void anAgeIsCountedInWholeYears(LocalDate born, String words) {
        assertThat(TimeWords.age(born, TODAY)).isEqualTo(words);
    }
}
