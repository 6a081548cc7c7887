package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import limbqueue.forecast.Situation.Coming;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What held time does to a forecast: by cases worked out by hand, and by what must not grow when something else does. */
class HeldInForecastTest {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);
    private static final int WEEKS = 12;
    private static final int RUNS = 200;
    private static final int AGES = 1_000_000_000;
    private static final Attendance EVERYBODY_COMES = new Attendance(0, AGES);

    private static CaseMinutes.Minutes exactly(double minutes) {
        return new CaseMinutes.Minutes(minutes, minutes);
    }

    private static QueuedCase waits(Tier tier, int received, int target, double minutes) {
        return new QueuedCase(tier, MONDAY.plusDays(received), MONDAY, MONDAY.plusDays(target), exactly(minutes));
    }

    private static HeldFor urgent(double filledADay) {
        return new HeldFor(Set.of(Tier.WITHIN_5_DAYS), filledADay);
    }

    /** Nobody comes who is not in the queue. Sessions of 100 minutes on three Wednesdays, each holding 60. */
    private static Forecast onWednesdays(List<QueuedCase> queue, int releaseDays, double filledADay) {
        var coming = new Coming(exactly(60), 0);
        return Forecast.of(
                new Situation(
                        MONDAY,
                        3,
                        queue,
                        IntStream.of(2, 9, 16)
                                .mapToObj(day -> new RoomSession(MONDAY.plusDays(day), 100, 60, releaseDays))
                                .toList(),
                        Policy.standard(),
                        Arrivals.counted(Map.of(), AGES),
                        Map.of(Tier.WITHIN_5_DAYS, coming, Tier.WITHIN_6_WEEKS, coming),
                        EVERYBODY_COMES,
                        urgent(filledADay)),
                2,
                1);
    }

    /** How many of a tier are treated in each week. */
    private static List<Integer> treated(Forecast forecast, int tier) {
        return IntStream.range(0, 3)
                .mapToObj(week -> (int) forecast.tally().treated(tier, week)[0])
                .toList();
    }

    /**
     * An urgent case of 60 minutes and three others of 40. On the first Wednesday the urgent one has the held time and one other
     * what is left. On the second nobody urgent is there: one other fits into the 40 minutes that are not held, and a second one
     * only if 80 minutes are for others, which is if the release finds somebody for 40 of the 60: with half of what is free filled
     * a day of notice, that are 0, 30, 45 and 52.5 minutes after 0, 1, 2 and 3 days.
     */
    @ParameterizedTest
    @CsvSource({"0, 1, 1, 1", "1, 1, 1, 1", "2, 1, 2, 0", "3, 1, 2, 0"})
    void othersUseHeldTimeAsFarAsItsReleaseFindsThem(int releaseDays, int first, int second, int third) {
        var forecast = onWednesdays(
                List.of(
                        waits(Tier.WITHIN_5_DAYS, -1, 4, 60),
                        waits(Tier.WITHIN_6_WEEKS, -10, 9, 40),
                        waits(Tier.WITHIN_6_WEEKS, -9, 10, 40),
                        waits(Tier.WITHIN_6_WEEKS, -8, 11, 40)),
                releaseDays,
                0.5);
        assertThat(treated(forecast, 0)).containsExactly(1, 0, 0);
        assertThat(treated(forecast, 1)).containsExactly(first, second, third);
        // Of the others, the second has day 10 to be treated by, the third day 11: Wednesday of the third week is too
        // late.
        assertThat(forecast.tally().breached(1)[0]).isEqualTo(third);
    }

    /** 50 minutes do not fit into the 40 that are not held, whoever else comes: they wait, as the plan has them wait. */
    @Test
    void whoNeedsHeldTimeWaitsAlsoWhereTheSessionIsEmpty() {
        var queue = List.of(waits(Tier.WITHIN_6_WEEKS, -10, 9, 50), waits(Tier.WITHIN_6_WEEKS, -9, 10, 40));
        assertThat(treated(onWednesdays(queue, 0, 0.5), 1)).containsExactly(1, 0, 0);
        assertThat(treated(onWednesdays(queue, 5, 1), 1)).containsExactly(2, 0, 0);
    }

    /** Of 200 minutes that fit nowhere, an urgent patient is treated all the same, in a session of its own. */
    @Test
    void urgentCasesUseAllOfASession() {
        var queue = List.of(
                waits(Tier.WITHIN_5_DAYS, -3, 2, 60),
                waits(Tier.WITHIN_5_DAYS, -2, 3, 40),
                waits(Tier.WITHIN_5_DAYS, -1, 4, 200),
                waits(Tier.WITHIN_6_WEEKS, -9, 10, 40));
        var forecast = onWednesdays(queue, 0, 0.5);
        assertThat(treated(forecast, 0)).containsExactly(2, 1, 0);
        assertThat(treated(forecast, 1)).containsExactly(0, 0, 1);
    }

    private static Forecast busy(int held, int releaseDays) {
        var coming = Map.of(
                Tier.WITHIN_5_DAYS, new Coming(exactly(60), 1),
                Tier.WITHIN_14_DAYS, new Coming(exactly(60), 3),
                Tier.WITHIN_6_WEEKS, new Coming(exactly(60), 7));
        var queue = new ArrayList<QueuedCase>();
        for (var one = 0; one < 20; one++) {
            queue.add(waits(Tier.WITHIN_6_WEEKS, one - 25, one + 17, 60));
        }
        var sessions = IntStream.range(0, WEEKS * 7)
                .filter(day -> day % 7 == 1 || day % 7 == 3)
                .mapToObj(day -> new RoomSession(MONDAY.plusDays(day), 240, held, releaseDays))
                .toList();
        return Forecast.of(
                new Situation(
                        MONDAY,
                        WEEKS,
                        queue,
                        sessions,
                        Policy.standard(),
                        Arrivals.counted(
                                Map.of(
                                        Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 10, DayOfWeek.THURSDAY, 9),
                                        Tier.WITHIN_14_DAYS, Map.of(DayOfWeek.TUESDAY, 30),
                                        Tier.WITHIN_6_WEEKS, Map.of(DayOfWeek.FRIDAY, 40)),
                                13),
                        coming,
                        EVERYBODY_COMES,
                        urgent(0.3)),
                RUNS,
                5);
    }

    /**
     * All cases take an hour, so less room for others leaves none of them waiting shorter in any run.
     *
     * @return in how many figures more wait in {@code less} than in {@code more}
     */
    private static int othersWaitNoShorter(Forecast more, Forecast less) {
        var longer = 0;
        for (var week = 0; week < WEEKS; week++) {
            assertThat(less.tally().waiting(0, week))
                    .as("urgent cases go first")
                    .containsExactly(more.tally().waiting(0, week));
            for (var tier = 1; tier < 3; tier++) {
                for (var run = 0; run < RUNS; run++) {
                    var gain =
                            less.tally().waiting(tier, week)[run] - more.tally().waiting(tier, week)[run];
                    assertThat(gain).isNotNegative();
                    longer += gain > 0 ? 1 : 0;
                }
            }
        }
        return longer;
    }

    @Test
    void theMoreIsHeldTheLongerOthersWait() {
        for (var releaseDays : List.of(0, 2)) {
            for (var held = 0; held < 240; held += 60) {
                assertThat(othersWaitNoShorter(busy(held, releaseDays), busy(held + 60, releaseDays)))
                        .as("%d minutes and %d, released %d days before", held, held + 60, releaseDays)
                        .isGreaterThan(500);
            }
        }
    }

    @Test
    void theEarlierItIsReleasedTheShorterOthersWait() {
        var sum = 0;
        for (var releaseDays = 0; releaseDays < 4; releaseDays++) {
            sum += othersWaitNoShorter(busy(180, releaseDays + 1), busy(180, releaseDays));
        }
        assertThat(sum).isGreaterThan(1_000);
    }

    /** Whole sessions that are held to the last treat nobody else. */
    @Test
    void aSessionThatIsHeldAsAWholeTreatsUrgentCasesAlone() {
        var whole = busy(240, 0);
        for (var week = 0; week < WEEKS; week++) {
            assertThat(whole.tally().treated(1, week)).containsOnly(0);
            assertThat(whole.tally().treated(2, week)).containsOnly(0);
        }
        assertThat(Estimate.mean(whole.tally().treated(0, 5)).value()).isPositive();
    }

    /** 1 - 0.7 of it after a day, 1 - 0.7 x 0.7 after two: what the trade-off of held time counts as not wasted. */
    @Test
    void whatIsReleasedFindsSomebodyWithEachDayOfNotice() {
        var held = urgent(0.3);
        assertThat(held.filled(0)).isZero();
        assertThat(held.filled(1)).isEqualTo(0.3, within(1e-12));
        assertThat(held.filled(2)).isEqualTo(0.51, within(1e-12));
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThatThrownBy(() -> new RoomSession(MONDAY, 60, 61, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new RoomSession(MONDAY, 60, -1, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new RoomSession(MONDAY, 60, 0, -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> urgent(1.1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> urgent(Double.NaN)).isInstanceOf(IllegalArgumentException.class);
    }
}
