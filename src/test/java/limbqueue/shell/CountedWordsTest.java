package limbqueue.shell;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class CountedWordsTest {

    @Test
    void oneIsOneAndEverythingElseIsMany() {
        assertThat(CountedWords.of(0, "minute")).isEqualTo("0 minutes");
        assertThat(CountedWords.of(1, "minute")).isEqualTo("1 minute");
        assertThat(CountedWords.of(2, "minute")).isEqualTo("2 minutes");
        assertThat(CountedWords.of(1, "patient is", "patients are")).isEqualTo("1 patient is");
        assertThat(CountedWords.of(21, "patient is", "patients are")).isEqualTo("21 patients are");
    }
}
