package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import limbqueue.forecast.Arrivals.Received;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

class ArrivalsTest {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    @Test
    void whatCameIsCountedByTierAndWeekday() {
        var arrivals = Arrivals.from(
                List.of(
                        new Received(MONDAY, Tier.WITHIN_5_DAYS),
                        new Received(MONDAY.plusDays(7), Tier.WITHIN_5_DAYS),
                        new Received(MONDAY.plusDays(9), Tier.WITHIN_5_DAYS),
                        new Received(MONDAY.plusDays(9), Tier.WITHIN_6_WEEKS)),
                MONDAY,
                MONDAY.plusDays(13));
        assertThat(arrivals.counted(Tier.WITHIN_5_DAYS)).isEqualTo(new PoissonCount(3, 2));
        assertThat(arrivals.counted(Tier.WITHIN_5_DAYS, DayOfWeek.MONDAY)).isEqualTo(new PoissonCount(2, 2));
        assertThat(arrivals.counted(Tier.WITHIN_5_DAYS, DayOfWeek.WEDNESDAY)).isEqualTo(new PoissonCount(1, 2));
        assertThat(arrivals.counted(Tier.WITHIN_6_WEEKS, DayOfWeek.WEDNESDAY)).isEqualTo(new PoissonCount(1, 2));
        assertThat(arrivals.counted(Tier.SAME_DAY)).isEqualTo(new PoissonCount(0, 2));
    }

    @Test
    void daysBeforeTheWholeWeeksAndOutsideOfThePeriodAreNotCounted() {
        var arrivals = Arrivals.from(
                List.of(
                        new Received(MONDAY, Tier.WITHIN_14_DAYS),
                        new Received(MONDAY.plusDays(1), Tier.WITHIN_14_DAYS),
                        new Received(MONDAY.plusDays(7), Tier.WITHIN_14_DAYS),
                        new Received(MONDAY.plusDays(8), Tier.WITHIN_14_DAYS)),
                MONDAY.minusDays(2),
                MONDAY.plusDays(7));
        assertThat(arrivals.counted(Tier.WITHIN_14_DAYS)).isEqualTo(new PoissonCount(2, 1));
    }

    @Test
    void aTierThatNeverCameIsExpectedSeldomAndOnTheDaysOnWhichOthersCome() {
        var arrivals =
                Arrivals.counted(Map.of(Tier.WITHIN_6_WEEKS, Map.of(DayOfWeek.MONDAY, 60, DayOfWeek.TUESDAY, 60)), 20);
        assertThat(arrivals.inAWeek(Tier.SAME_DAY)).isEqualTo(0.5 / 20, within(1e-12));
        assertThat(arrivals.on(Tier.SAME_DAY, DayOfWeek.SUNDAY)).isPositive();
        assertThat(arrivals.on(Tier.SAME_DAY, DayOfWeek.MONDAY))
                .isEqualTo(61 * arrivals.on(Tier.SAME_DAY, DayOfWeek.SUNDAY), within(1e-12));
    }

    @Test
    void manyDataStandForThemselves() {
        var arrivals = Arrivals.counted(
                Map.of(Tier.WITHIN_6_WEEKS, Map.of(DayOfWeek.MONDAY, 30_000, DayOfWeek.FRIDAY, 10_000)), 10_000);
        assertThat(arrivals.on(Tier.WITHIN_6_WEEKS, DayOfWeek.MONDAY)).isEqualTo(3, within(0.001));
        assertThat(arrivals.on(Tier.WITHIN_6_WEEKS, DayOfWeek.FRIDAY)).isEqualTo(1, within(0.001));
        assertThat(arrivals.on(Tier.WITHIN_6_WEEKS, DayOfWeek.SUNDAY)).isEqualTo(0, within(0.001));
    }

    @Test
    void theRatesOfTheDaysAddUpToThatOfTheWeek() {
        var arrivals = Arrivals.counted(
                Map.of(
                        Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 3),
                        Tier.WITHIN_18_WEEKS, Map.of(DayOfWeek.FRIDAY, 11, DayOfWeek.SATURDAY, 1)),
                9);
        for (var tier : Tier.values()) {
            var sum = Arrays.stream(DayOfWeek.values())
                    .mapToDouble(day -> arrivals.on(tier, day))
                    .sum();
            assertThat(sum).isEqualTo(arrivals.inAWeek(tier), within(1e-12));
        }
    }

    /** A gamma distribution of shape k and rate w has mean k / w and variance k / w^2; the shares of a Dirichlet add up to 1. */
    @Test
    void ratesAreDrawnAsWideAsWhatIsNotKnownOfThem() {
        var arrivals = Arrivals.counted(Map.of(Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 6)), 4);
        var draws = 20_000;
        var mondays = new double[draws];
        var weeks = new double[draws];
        var sources = Randomness.forRuns(draws, 17);
        for (var draw = 0; draw < draws; draw++) {
            var rates = arrivals.drawn(Tier.WITHIN_5_DAYS, sources[draw]);
            mondays[draw] = rates[0];
            weeks[draw] = Arrays.stream(rates).sum();
        }
        var week = Estimate.mean(weeks);
        assertThat(week.value()).isEqualTo(6.5 / 4, within(4 * week.error()));
        var variance = Estimate.mean(
                Arrays.stream(weeks).map(rate -> Math.pow(rate - 6.5 / 4, 2)).toArray());
        assertThat(variance.value()).isEqualTo(6.5 / 16, within(4 * variance.error()));
        var monday = Estimate.mean(mondays);
        assertThat(monday.value())
                .isEqualTo(arrivals.on(Tier.WITHIN_5_DAYS, DayOfWeek.MONDAY), within(4 * monday.error()));
        // 80 of 100 rates lie within the limits that say so.
        var likely = arrivals.counted(Tier.WITHIN_5_DAYS).likely(0.8);
        var within = Estimate.mean(Arrays.stream(weeks)
                .map(rate -> rate >= likely.low() && rate <= likely.high() ? 1 : 0)
                .toArray());
        assertThat(within.value()).isEqualTo(0.8, within(4 * within.error()));
    }

    @Test
    void theSameSeedDrawsTheSame() {
        var arrivals = Arrivals.counted(Map.of(Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 6)), 4);
        IntStream.range(0, 5)
                .forEach(run -> assertThat(arrivals.drawn(Tier.WITHIN_5_DAYS, Randomness.forRuns(5, 3)[run]))
                        .isEqualTo(arrivals.drawn(Tier.WITHIN_5_DAYS, Randomness.forRuns(5, 3)[run]))
                        .isNotEqualTo(arrivals.drawn(Tier.WITHIN_5_DAYS, Randomness.forRuns(5, 4)[run])));
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThatThrownBy(() -> Arrivals.from(List.of(), MONDAY, MONDAY.plusDays(5)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("less than a week");
        assertThatThrownBy(() -> Arrivals.counted(Map.of(), 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Arrivals.counted(Map.of(Tier.SAME_DAY, Map.of(DayOfWeek.MONDAY, -1)), 5))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
