package limbqueue.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;

class SignInThrottleTest {

    private final HandClock clock = new HandClock();
    private final SignInThrottle throttle = new SignInThrottle(clock);

    @Test
    void four_wrong_passwords_cost_nothing() {
        fail("wren", 4);
        assertThat(throttle.wait("wren")).isEmpty();
    }

    @Test
    void the_fifth_costs_half_a_minute_and_each_further_one_twice_as_long() {
        fail("wren", 5);
        assertThat(throttle.wait("wren")).contains(Duration.ofSeconds(30));
        clock.forward(Duration.ofSeconds(30));
        assertThat(throttle.wait("wren")).isEmpty();
        fail("wren", 1);
        assertThat(throttle.wait("wren")).contains(Duration.ofSeconds(60));
    }

    @Test
    void nobody_waits_longer_than_a_quarter_of_an_hour() {
        fail("wren", 60);
        assertThat(throttle.wait("wren")).contains(Duration.ofMinutes(15));
    }

    @Test
    void the_right_password_forgives_the_wrong_ones() {
        fail("wren", 4);
        throttle.succeeded("wren");
        fail("wren", 4);
        assertThat(throttle.wait("wren")).isEmpty();
    }

    @Test
    void upper_case_and_spaces_make_no_other_name() {
        fail("Wren", 3);
        fail(" wren ", 2);
        assertThat(throttle.wait("WREN")).isPresent();
    }

    @Test
    void one_name_does_not_make_another_wait() {
        fail("wren", 9);
        assertThat(throttle.wait("osric")).isEmpty();
    }

    @Test
    void after_a_while_without_an_attempt_counting_begins_again() {
        fail("wren", 4);
        clock.forward(Duration.ofMinutes(16));
        fail("wren", 1);
        assertThat(throttle.wait("wren")).isEmpty();
    }

    @Test
    void a_flood_of_names_does_not_fill_the_memory_and_keeps_the_latest() {
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
