package limbqueue.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class GuessThrottleTest {

    private final HandClock clock = new HandClock();
    private final GuessThrottle throttle = new GuessThrottle(clock);

    @Test
    void fourWrongPasswordsCostNothing() {
        fail("wren", 4);
        assertThat(throttle.wait("wren")).isEmpty();
    }

    @Test
    void theFifthCostsHalfAMinuteAndEachFurtherOneTwiceAsLong() {
        fail("wren", 5);
        assertThat(throttle.wait("wren")).contains(Duration.ofSeconds(30));
        clock.forward(Duration.ofSeconds(30));
        assertThat(throttle.wait("wren")).isEmpty();
        fail("wren", 1);
        assertThat(throttle.wait("wren")).contains(Duration.ofSeconds(60));
    }

    @Test
    void nobodyWaitsLongerThanAQuarterOfAnHour() {
        fail("wren", 60);
        assertThat(throttle.wait("wren")).contains(Duration.ofMinutes(15));
    }

    @Test
    void theRightPasswordForgivesTheWrongOnes() {
        fail("wren", 4);
        throttle.succeeded("wren");
        fail("wren", 4);
        assertThat(throttle.wait("wren")).isEmpty();
    }

    @Test
    void upperCaseAndSpacesMakeNoOtherName() {
        fail("Wren", 3);
        fail(" wren ", 2);
        assertThat(throttle.wait("WREN")).isPresent();
    }

    @Test
    void oneNameDoesNotMakeAnotherWait() {
        fail("wren", 9);
        assertThat(throttle.wait("osric")).isEmpty();
    }

    @Test
    void afterAWhileWithoutAnAttemptCountingBeginsAgain() {
        fail("wren", 4);
        clock.forward(Duration.ofMinutes(16));
        fail("wren", 1);
        assertThat(throttle.wait("wren")).isEmpty();
    }

    @Test
    void aFloodOfNamesDoesNotFillTheMemoryAndKeepsTheLatest() {
        for (var number = 0; number < 30_000; number++) {
            throttle.failed("guess" + number);
        }
        fail("guess29999", 4);
        assertThat(throttle.wait("guess29999")).isPresent();
        fail("guess0", 4);
        assertThat(throttle.wait("guess0"))
                .as("forgotten once, so these four are the first")
                .isEmpty();
    }

    private void fail(String name, int times) {
        for (var time = 0; time < times; time++) {
            throttle.failed(name);
        }
    }

    /** A clock that stands still until it is moved. */
    private static final class HandClock extends Clock {

        private Instant now = Instant.parse("2026-03-02T17:00:00Z");

        void forward(Duration by) {
            now = now.plus(by);
        }

        @Override
        public Instant instant() {
            return now;
        }

        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }
    }
}
