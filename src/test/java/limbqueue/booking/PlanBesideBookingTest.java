package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The plan beside what a practice does without one: the most urgent first, each step into the first session that has time for it
 * (common practice, no source). Both are judged by {@link HandJudge}.
 */
class PlanBesideBookingTest {

    private static final int CASES = 100;
    private static final int LATENESS = 3;

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void aShortSearchKeepsMorePromisesThanBookingInTurnAndTheOthersWaitNoLonger(long seed) {
        var waiting = GeneratedPractice.steady(seed, CASES);
        var judge = new HandJudge(waiting);
        var booked = judge.levels(Rivals.tierThenDate(waiting));
        var planned = judge.levels(HandJudge.placesOf(waiting, Planner.plan(waiting, Search.of(1, 20_000))));
        assertThat(Arrays.compare(planned, booked))
                .as("planned %s, booked %s", Arrays.toString(planned), Arrays.toString(booked))
                .isNegative();
        assertThat(planned[LATENESS]).as("weighted days late").isLessThanOrEqualTo(booked[LATENESS]);
    }
}
