package limbqueue.governance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ProportionTest {

    /**
     * Newcombe RG. Two-sided confidence intervals for the single proportion: comparison of seven methods. Stat Med
     * 1998;17:857-872, table I, method 3, to its four places; read in secondary copies.
     */
    @ParameterizedTest(name = "{0} of {1}")
    @CsvSource({
        "81, 263, 0.2553, 0.3662",
        "15, 148, 0.0624, 0.1605",
        " 0,  20, 0.0000, 0.1611",
        " 1,  29, 0.0061, 0.1718"
    })
    void theIntervalIsThatOfNewcombesTable(int of, int all, double low, double high) {
        var interval = new Proportion(of, all).interval();
        assertThat(interval.low()).isEqualTo(low, within(0.00005));
        assertThat(interval.high()).isEqualTo(high, within(0.00005));
    }

    /** A share and the share of the rest say the same. */
    @Test
    void theIntervalOfTheRestIsTheMirror() {
        for (var all = 1; all <= 60; all++) {
            for (var of = 0; of <= all; of++) {
                var one = new Proportion(of, all).interval();
                var rest = new Proportion(all - of, all).interval();
                assertThat(one.low()).isEqualTo(1 - rest.high(), within(1e-12));
                assertThat(one.low()).isBetween(0.0, (double) of / all);
                assertThat(one.high()).isBetween((double) of / all, 1.0);
            }
        }
    }

    @Test
    void ofNoneNothingIsKnown() {
        var none = new Proportion(0, 0);
        assertThat(none.share()).isEmpty();
        assertThat(none.interval()).isEqualTo(new Proportion.Interval(0, 1));
        assertThat(new Proportion(3, 4).share()).hasValue(0.75);
    }

    @Test
    void moreThanAllIsRefused() {
        assertThatThrownBy(() -> new Proportion(3, 2)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Proportion(-1, 2)).isInstanceOf(IllegalArgumentException.class);
    }
}
