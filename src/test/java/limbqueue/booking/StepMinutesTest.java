package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.util.Arrays;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class StepMinutesTest {

    private static final int DRAWS = 200_000;
    private static final double NINETY = 1.2815515655446004;

    /** Lists as a practice has them: many short visits, a few procedures, one long one with short ones. */
    static Stream<List<StepMinutes>> lists() {
        var visit = new StepMinutes(25, 40);
        var stenosis = new StepMinutes(75, 110);
        var occlusion = new StepMinutes(120, 200);
        return Stream.of(
                List.of(visit),
                List.of(occlusion),
                List.of(visit, visit, visit, visit, visit, visit, visit, visit, visit),
                List.of(stenosis, stenosis, stenosis),
                List.of(occlusion, stenosis, stenosis),
                List.of(occlusion, occlusion),
                List.of(new StepMinutes(100, 200), visit));
    }

    @ParameterizedTest
    @MethodSource("lists")
    void nineOfTenSumsThatAreDrawnAreNoLongerThanWhatIsWorkedOut(List<StepMinutes> list) {
        var random = new Random(20260302);
        var sums = new double[DRAWS];
        for (var i = 0; i < DRAWS; i++) {
            for (var minutes : list) {
                var sigma = Math.log(minutes.ninety() / minutes.median()) / NINETY;
                sums[i] += minutes.median() * Math.exp(sigma * random.nextGaussian());
            }
        }
        var ninety = StepMinutes.ninetyOfSum(
                list.stream().mapToLong(StepMinutes::expected).sum(),
                list.stream().mapToLong(StepMinutes::variance).sum());
        var longer = Arrays.stream(sums).filter(sum -> sum > ninety).count() / (double) DRAWS;
        Arrays.sort(sums);
        assertThat(longer).as("share of sums that are longer").isBetween(0.085, 0.11);
        assertThat(ninety).as("minutes").isCloseTo(sums[DRAWS * 9 / 10], withinPercentage(2));
        assertThat(list.stream().mapToLong(StepMinutes::expected).sum())
                .isCloseTo(Math.round(Arrays.stream(sums).average().orElseThrow()), within(3L));
    }

    /**
     * Mean exp(m + s^2/2) and variance (exp(s^2) - 1) exp(2m + s^2) of the log-normal distribution, here with m = ln 100 and
     * s = 0.5: any handbook of statistics; 113.3 and 3,647 worked out by hand (value from memory).
     */
    @Test
    void meanAndVarianceAreThoseOfTheLogNormalDistribution() {
        var minutes = new StepMinutes(100, 100 * Math.exp(NINETY * 0.5));
        assertThat(minutes.expected()).isEqualTo(113);
        assertThat(minutes.variance()).isCloseTo(3_647, within(1L));
    }

    @Test
    void aTimeWithoutSpreadIsItself() {
        var minutes = new StepMinutes(30, 30);
        assertThat(minutes.expected()).isEqualTo(30);
        assertThat(minutes.variance()).isZero();
        assertThat(StepMinutes.ninetyOfSum(90, 0)).isCloseTo(90, within(1e-9));
        assertThat(StepMinutes.overrun(90, 0, 90)).isZero();
        assertThat(StepMinutes.overrun(90, 0, 89)).isEqualTo(1);
        assertThat(StepMinutes.overrun(0, 0, 60)).isZero();
    }

    @Test
    void minutesThatCannotBeAreRefused() {
        for (var bad : List.of(
                new double[] {0, 1}, new double[] {-1, 1}, new double[] {10, 9}, new double[] {Double.NaN, 1})) {
            assertThatThrownBy(() -> new StepMinutes(bad[0], bad[1])).isInstanceOf(IllegalArgumentException.class);
        }
    }
}
