package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;
import org.junit.jupiter.api.Test;

class ForecastTableTest {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    /** Two wait, and one session comes, on Wednesday; the second is treated in none. */
    private static Forecast forecast() {
        var hour = new CaseMinutes.Minutes(60, 60);
        return Forecast.of(
                new Situation(
                        MONDAY,
                        2,
                        List.of(
                                new QueuedCase(
                                        Tier.WITHIN_5_DAYS, MONDAY.minusDays(1), MONDAY, MONDAY.plusDays(3), hour),
                                new QueuedCase(Tier.WITHIN_5_DAYS, MONDAY, MONDAY, MONDAY.plusDays(4), hour)),
                        List.of(new RoomSession(MONDAY.plusDays(2), 100)),
                        Policy.standard(),
                        Arrivals.counted(Map.of(), 1_000_000_000),
                        Map.of(Tier.WITHIN_5_DAYS, new Situation.Coming(hour, 1)),
                        new Attendance(0, 1_000_000_000)),
                2,
                1);
    }

    @Test
    void eachRowSaysAWeekOfATier() {
        var table = ForecastTable.of(forecast());
        assertThat(table.rows())
                .containsExactly(
                        List.of(
                                "Within 5 days",
                                "1",
                                "2026-03-02",
                                "3.0",
                                "3 to 3",
                                "2.0",
                                "0.50",
                                "1.0",
                                "1 to 1",
                                "1.0",
                                "1 to 1"),
                        List.of(
                                "Within 5 days",
                                "2",
                                "2026-03-09",
                                "",
                                "",
                                "0.0",
                                "",
                                "0.0",
                                "0 to 0",
                                "1.0",
                                "1 to 1"));
        assertThat(table.rows()).allSatisfy(row -> assertThat(row).hasSameSizeAs(table.header()));
    }

    @Test
    void aGainIsSaidForEachTier() {
        var today = forecast();
        var table = ForecastTable.of(today.gainOf(today.withOneMoreSession(new WeeklySession(DayOfWeek.THURSDAY, 60))));
        assertThat(table.rows()).containsExactly(List.of("Within 5 days", "1.0", "0.00", "1 to 1", "1.0", "1 to 1"));
        assertThat(table.rows().getFirst()).hasSameSizeAs(table.header());
    }
}
