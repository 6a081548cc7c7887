package limbqueue.samepatient;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NameComparisonTest {

    /**
     * The three pairs with which the measures of Jaro (1989) and Winkler (1990) are usually explained, as in the encyclopaedia
     * article "Jaro-Winkler distance"; pairs and formula read there, the values from memory and worked out by hand from the
     * formula: of MARTHA and MARHTA all six letters match, two of them out of place, so (1 + 1 + 5/6) / 3.
     */
    @ParameterizedTest
    @CsvSource({"MARTHA, MARHTA, 0.944, 0.961", "DWAYNE, DUANE, 0.822, 0.840", "DIXON, DICKSONX, 0.767, 0.813"})
    void theExamplesOfJaroAndWinkler(String one, String other, double jaro, double winkler) {
        assertThat(NameComparison.jaro(one, other)).isEqualTo(jaro, within(0.0005));
        assertThat(NameComparison.jaroWinkler(one, other)).isEqualTo(winkler, within(0.0005));
        assertThat(NameComparison.jaroWinkler(other, one)).isEqualTo(winkler, within(0.0005));
    }

    /** The four kinds of error of Damerau (1964): another letter, one too few, one too many, two neighbours swapped. */
    @ParameterizedTest
    @CsvSource({
        "thornbury, thornbary, 1", "thornbury, thornbry, 1", "thornbury, thornnbury, 1", "thornbury, thronbury, 1",
        "thornbury, thornbury, 0", "'', abc, 3", "kitten, sitting, 3", "ca, abc, 3"
    })
    void errorsOfTypingAreCounted(String one, String other, int errors) {
        assertThat(NameComparison.errors(one, other)).isEqualTo(errors);
        assertThat(NameComparison.errors(other, one)).isEqualTo(errors);
    }

    @ParameterizedTest
    @CsvSource({"abc, xyz, 0", "abc, abc, 1", "'', '', 1", "'', a, 0"})
    void nothingInCommonIsNothingAndEqualIsOne(String one, String other, double jaro) {
        assertThat(NameComparison.jaro(one, other)).isEqualTo(jaro);
    }
}
