package limbqueue.dispatch;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class BackOffTest {

    /** Doubled from a minute up to four hours, by hand. */
    @ParameterizedTest
    @CsvSource({"1, 1", "2, 2", "3, 4", "7, 64", "8, 128", "9, 240", "13, 240"})
    void theWaitDoublesUpToFourHours(int attempts, int minutes) {
        assertThat(BackOff.after(attempts)).contains(Duration.ofMinutes(minutes));
    }

    @Test
    void afterTheLastAttemptThereIsNone() {
        assertThat(BackOff.after(BackOff.MOST_ATTEMPTS)).isEmpty();
    }
}
