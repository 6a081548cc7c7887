package limbqueue.governance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class SpreadTest {

    /** Twelve resistivities in ohm cm, NIST/SEMATECH e-Handbook of Statistical Methods, 7.2.6.2. */
    private static final List<Double> RESISTIVITIES = List.of(
            95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925, 95.1990, 95.1682);

    /** The same page: 0.9(13) = 11.7, so the 90th percentile is estimated to be 95.1981. */
    @Test
    void theNinetiethPercentileIsThatOfTheHandbook() {
        assertThat(Spread.of(RESISTIVITIES).orElseThrow().ninetieth()).isEqualTo(95.1981, within(0.00005));
    }

    /** By the rule of the same page: 0.5(13) = 6.5, between the sixth and the seventh, 95.1567 and 95.1591. */
    @Test
    void theMedianOfAnEvenNumberLiesBetweenTheTwoInTheMiddle() {
        assertThat(Spread.of(RESISTIVITIES).orElseThrow().median()).isEqualTo(95.1579, within(1e-9));
    }

    /** By the rule of the same page: 0.25(12) = 3 and 0.75(12) = 9 are places. */
    @Test
    void aPlaceThatIsWholeIsANumberOfTheList() {
        var spread = Spread.of(IntStream.rangeClosed(1, 11).boxed().toList()).orElseThrow();
        assertThat(spread.quarter()).isEqualTo(3);
        assertThat(spread.median()).isEqualTo(6);
        assertThat(spread.threeQuarters()).isEqualTo(9);
    }

    /** The same page: before the first place the first, after the last place the last. */
    @Test
    void beyondTheEndsStandTheFirstAndTheLast() {
        var spread = Spread.of(List.of(8, 3, 5)).orElseThrow();
        assertThat(spread.tenth()).isEqualTo(3);
        assertThat(spread.ninetieth()).isEqualTo(8);
        assertThat(Spread.of(List.of(4))).hasValue(new Spread(4, 4, 4, 4, 4));
        assertThat(Spread.of(List.<Integer>of())).isEmpty();
    }
}
