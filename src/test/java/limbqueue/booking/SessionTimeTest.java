package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import limbqueue.booking.SessionTime.Impossible;
import limbqueue.booking.SessionTime.Possible;
import org.junit.jupiter.api.Test;

/**
 * Days on which clocks are changed: in the European Union the last Sundays of March and October, 01:00 UTC (Directive
 * 2000/84/EC), so in Vienna from 02:00 to 03:00 on 2026-03-29, and from 03:00 back to 02:00 on 2026-10-25.
 */
class SessionTimeTest {

    private static final ZoneId VIENNA = ZoneId.of("Europe/Vienna");
    private static final LocalDate FORWARD = LocalDate.of(2026, 3, 29);
    private static final LocalDate BACK = LocalDate.of(2026, 10, 25);

    private static SessionTime time(LocalDate date, String start, String end) {
        return SessionTime.of(date, LocalTime.parse(start), LocalTime.parse(end), VIENNA);
    }

    private static void refused(SessionTime time, boolean end, String words) {
        assertThat(time).isInstanceOfSatisfying(Impossible.class, impossible -> {
            assertThat(impossible.end()).isEqualTo(end);
            assertThat(impossible.text()).contains(words);
        });
    }

    @Test
    void anOrdinaryMorningHasTheMinutesThatTheClockShows() {
        assertThat(time(FORWARD, "08:00", "12:30")).isInstanceOfSatisfying(Possible.class, possible -> {
            assertThat(possible.minutes()).isEqualTo(270);
            assertThat(possible.remark()).isEmpty();
        });
    }

    @Test
    void aSessionOverTheMissingHourIsAnHourShorterThanItLooks() {
        assertThat(time(FORWARD, "01:00", "05:00")).isInstanceOfSatisfying(Possible.class, possible -> {
            assertThat(possible.minutes()).isEqualTo(180);
            assertThat(possible.remark())
                    .hasValueSatisfying(remark -> assertThat(remark).contains("180 minutes, not 240"));
        });
    }

    @Test
    void aSessionOverTheHourThatComesTwiceIsAnHourLonger() {
        assertThat(time(BACK, "01:00", "05:00"))
                .isInstanceOfSatisfying(
                        Possible.class,
                        possible -> assertThat(possible.minutes()).isEqualTo(300));
    }

    @Test
    void aTimeThatTheNightLeavesOutIsNoTime() {
        refused(
                time(FORWARD, "02:30", "05:00"),
                false,
                "There is no 02:30 on 2026-03-29 in Europe/Vienna: clocks go from 02:00 to 03:00");
        refused(time(FORWARD, "01:00", "02:30"), true, "There is no 02:30");
        assertThat(time(FORWARD, "03:00", "05:00")).isInstanceOf(Possible.class);
    }

    @Test
    void aTimeThatComesTwiceSaysNotWhen() {
        refused(time(BACK, "02:30", "05:00"), false, "02:30 comes twice on 2026-10-25");
        assertThat(time(BACK, "03:00", "05:00")).isInstanceOf(Possible.class);
    }

    @Test
    void aSessionThatEndsBeforeItStartsIsRefused() {
        refused(time(FORWARD, "12:00", "08:00"), true, "ends at 08:00, before it starts at 12:00");
        refused(time(FORWARD, "12:00", "12:00"), true, "has no time");
    }
}
