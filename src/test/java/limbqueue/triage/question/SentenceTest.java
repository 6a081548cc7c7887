package limbqueue.triage.question;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Expected values by hand: half up, as one rounds on paper. */
class SentenceTest {

    @ParameterizedTest
    @CsvSource({
        "0, 0",
        "45, 45",
        "2.4, 2",
        "2.5, 3",
        "3.5, 4",
        "59.49999, 59",
        "0.49999999999999994, 0",
        "-2.5, -3",
        "-2.4, -2",
        "999999999999999.5, 1000000000000000",
        "1e15, 1000000000000000",
        "2e16, 20000000000000000"
    })
    void withoutDecimalsIsRoundedHalfUp(double number, String written) {
        assertThat(Sentence.of("about %.0f of them", number)).isEqualTo("about " + written + " of them");
    }

    @ParameterizedTest
    @CsvSource({"0.005, 0.01", "0.845, 0.85", "1.4, 1.40", "2, 2.00"})
    void twoDecimalsAreRoundedHalfUp(double number, String written) {
        assertThat(Sentence.of("%.2f", number)).isEqualTo(written);
    }
}
