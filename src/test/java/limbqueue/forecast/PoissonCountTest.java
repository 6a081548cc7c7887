package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class PoissonCountTest {

    /**
     * Exact limits as others print them: 0 and its 3.689 (epitools, pois.exact), 4 (the example of cipoisson in the package
     * survival of R, which finds its limits by trial, to four decimals), 10 (a calculator of Garwood's limits), 25 with three levels (an article on Garwood's method by the makers of
     * a statistics program, which cites Garwood 1936); 1, 2, 3, 5 and 20 from the factors that the national vital statistics of
     * the United States print for counts of deaths below 100 (values from memory).
     */
    @ParameterizedTest(name = "{0} events, {1}")
    @CsvSource({
        " 0, 0.95,  0,        3.689,    0.0005",
        " 1, 0.95,  0.025318, 5.571643, 0.000001",
        " 2, 0.95,  0.242220, 7.224688, 0.00002",
        " 3, 0.95,  0.618672, 8.767272, 0.00001",
        " 4, 0.95,  1.089865, 10.24153, 0.0001",
        " 5, 0.95,  1.623485, 11.66833, 0.00001",
        "10, 0.95,  4.80,     18.39,    0.005",
        "20, 0.95, 12.217,    30.888,   0.0005",
        "25, 0.90, 17.38,     34.92,    0.005",
        "25, 0.95, 16.18,     36.90,    0.005",
        "25, 0.99, 14.00,     41.00,    0.005"
    })
    void exactLimitsAreGarwoods(int events, double level, double low, double high, double rounding) {
        var limits = new PoissonCount(events, 1).exact(level);
        assertThat(limits.low()).isEqualTo(low, within(rounding));
        assertThat(limits.high()).isEqualTo(high, within(rounding));
    }

    /** The example of ci.poisson in the package statpsych of R: 23 events in a time of 5.25, 4.380952 (2.777148 to 6.57358). */
    @Test
    void limitsOfARateAreThoseOfTheCountForEachUnitOfTime() {
        var count = new PoissonCount(23, 5.25);
        assertThat(count.rate()).isEqualTo(4.380952, within(5e-7));
        assertThat(count.exact(0.95).low()).isEqualTo(2.777148, within(5e-7));
        assertThat(count.exact(0.95).high()).isEqualTo(6.57358, within(5e-6));
    }

    /**
     * With half a unit of time the likely limits of n events are quantiles of the chi-squared distribution with 2 n + 1 degrees of
     * freedom; five decimals as the usual tables print them (C. M. Thompson. Tables of percentage points of the chi-squared
     * distribution. Biometrika 1941;32:187-191; read in a secondary copy).
     */
    @ParameterizedTest(name = "{0} events, {1}")
    @CsvSource({
        "0, 0.90, 0.00393,  3.84146",
        "1, 0.90, 0.35185,  7.81473",
        "2, 0.90, 1.14548, 11.07050",
        "3, 0.90, 2.16735, 14.06714",
        "1, 0.95, 0.21580,  9.34840",
        "2, 0.95, 0.83121, 12.83250",
        "3, 0.95, 1.68987, 16.01276",
        "1, 0.99, 0.07172, 12.83816",
        "2, 0.99, 0.41174, 16.74960"
    })
    void likelyLimitsAreThoseOfTheChiSquaredTable(int events, double level, double low, double high) {
        var limits = new PoissonCount(events, 0.5).likely(level);
        assertThat(limits.low()).isEqualTo(low, within(0.000006));
        assertThat(limits.high()).isEqualTo(high, within(0.000006));
    }

    @Test
    void likelyLimitsLieWithinTheExactOnesAndNeverAtNothing() {
        for (var events = 0; events <= 200; events++) {
            var exact = new PoissonCount(events, 13).exact(0.8);
            var likely = new PoissonCount(events, 13).likely(0.8);
            assertThat(likely.low()).isPositive().isGreaterThan(exact.low());
            assertThat(likely.high()).isLessThan(exact.high());
        }
    }

    @Test
    void whatCannotBeIsRefused() {
        assertThatThrownBy(() -> new PoissonCount(-1, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new PoissonCount(1, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new PoissonCount(1, 1).exact(1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new PoissonCount(1, 1).likely(Double.NaN))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
