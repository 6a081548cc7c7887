package limbqueue.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.time.DayOfWeek;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.forecast.HeldBack.Lives;
import limbqueue.forecast.HeldBack.Point;
import limbqueue.triage.Tier;
import limbqueue.triage.plan.CaseMinutes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HeldBackTest {

    private static final CaseMinutes.Minutes AN_HOUR = new CaseMinutes.Minutes(60, 60);
    private static final CaseMinutes.Minutes ABOUT_AN_HOUR = new CaseMinutes.Minutes(60, 90);
    private static final Lives LIVES = new Lives(400, 52, 20260302);

    /** So many cases a week, equally on all days, as well known as if they had been counted for millions of years. */
    private static Arrivals known(double inAWeek) {
        return Arrivals.counted(
                Map.of(
                        Tier.WITHIN_5_DAYS,
                        Arrays.stream(DayOfWeek.values()).collect(Collectors.toMap(Function.identity(), _ ->
                                (int) Math.round(inAWeek / 7 * 500_000_000)))),
                500_000_000);
    }

    private static UrgentTier treatedWithin(int days, CaseMinutes.Minutes minutes) {
        return new UrgentTier(Tier.WITHIN_5_DAYS, minutes, 0, days);
    }

    /** The probability of more than {@code k} events of a Poisson distribution. */
    private static double moreThan(int k, double mean) {
        var term = Math.exp(-mean);
        var sum = 0.0;
        for (var events = 0; events <= k; events++) {
            sum += term;
            term *= mean / (events + 1);
        }
        return 1 - sum;
    }

    /** The mean of a Poisson number of which no more than {@code most} count: the sum of P(N > k) for k below {@code most}. */
    private static double meanUpTo(int most, double mean) {
        var sum = 0.0;
        for (var k = 0; k < most; k++) {
            sum += moreThan(k, mean);
        }
        return sum;
    }

    private static void assertFound(Point point, double share) {
        var found = point.found().orElseThrow();
        assertThat(found.value()).isEqualTo(share, within(4 * found.error()));
        assertThat(found.error()).isLessThan(0.01);
    }

    private static void assertWasted(Point point, double minutes) {
        assertThat(point.wasted().value())
                .isEqualTo(minutes, within(4 * point.wasted().error()));
        assertThat(point.wasted().error()).isLessThan(1);
    }

    /**
     * One session on Sundays and a week's days: every case has exactly one session to go to, which holds room for {@code slots}.
     * That is the newsvendor with Poisson demand N: E min(N, c) find room, and c - E min(N, c) places are left over (K. J. Arrow, T.
     * Harris, J. Marschak. Optimal inventory policy. Econometrica 1951;19:250-272; formulas as in textbooks, from memory).
     */
    @ParameterizedTest
    @ValueSource(ints = {0, 1, 2, 3, 5})
    void withOneSessionThatFitsItIsTheNewsvendor(int slots) {
        var heldBack = new HeldBack(
                known(2), List.of(treatedWithin(6, AN_HOUR)), List.of(new WeeklySession(DayOfWeek.SUNDAY, 300)), 0.3);
        var point = heldBack.curve(List.of(60 * slots), List.of(0), LIVES).getFirst();
        var finding = meanUpTo(slots, 2);
        assertThat(point.minutes()).isEqualTo(60 * slots);
        assertFound(point, finding / 2);
        assertWasted(point, 60 * (slots - finding));
    }

    /** Given away at the end of Friday, the place serves those of Monday to Friday alone; with two days' notice 0.7 x 0.7 stays empty. */
    @Test
    void whatIsGivenAwayEarlierIsWastedLessAndFindsFewer() {
        var heldBack = new HeldBack(
                known(2), List.of(treatedWithin(6, AN_HOUR)), List.of(new WeeklySession(DayOfWeek.SUNDAY, 300)), 0.3);
        var point = heldBack.curve(List.of(120), List.of(2), LIVES).getFirst();
        var finding = meanUpTo(2, 2 * 5 / 7.0);
        assertFound(point, finding / 2);
        assertWasted(point, 60 * (2 - finding) * 0.7 * 0.7);
    }

    /**
     * A place a day, and cases that can wait until tomorrow: a queue of Poisson arrivals and fixed times with one place to wait. With
     * N arrivals a day and x = 1 where today is taken from yesterday, min(N, 2 - x) find room, and tomorrow is taken if N is at least
     * 2 - x: a Markov chain of two states, so P(x = 1) = P(N > 1) / (P(N > 1) + P(N = 0)).
     */
    @Test
    void withAPlaceADayItIsAQueueThatCannotGrow() {
        var week = Arrays.stream(DayOfWeek.values())
                .map(day -> new WeeklySession(day, 60))
                .toList();
        var heldBack = new HeldBack(known(7 * 0.9), List.of(treatedWithin(1, AN_HOUR)), week, 0);
        var point = heldBack.curve(List.of(7 * 60), List.of(0), LIVES).getFirst();
        var taken = moreThan(1, 0.9) / (moreThan(1, 0.9) + 1 - moreThan(0, 0.9));
        var finding = (1 - taken) * meanUpTo(2, 0.9) + taken * meanUpTo(1, 0.9);
        assertFound(point, finding / 0.9);
        assertWasted(point, 7 * 60 * (1 - finding));
    }

    /** One case at most comes in a hundred weeks, so what counts is whether its minutes fit: nine of ten do, by their definition. */
    @Test
    void aCaseThatTakesLongerThanWhatIsHeldFindsNoRoom() {
        var heldBack = new HeldBack(
                known(0.01),
                List.of(treatedWithin(6, ABOUT_AN_HOUR)),
                List.of(new WeeklySession(DayOfWeek.SUNDAY, 300)),
                0);
        var points = heldBack.curve(List.of(60, 90), List.of(0), new Lives(400, 5_000, 5));
        assertFound(points.get(0), 0.5);
        assertFound(points.get(1), 0.9);
    }

    @Test
    void aSessionBeforeACaseCanBeTreatedIsNoRoom() {
        var heldBack = new HeldBack(
                known(1),
                List.of(new UrgentTier(Tier.WITHIN_5_DAYS, AN_HOUR, 3, 6)),
                List.of(new WeeklySession(DayOfWeek.SUNDAY, 300)),
                0);
        // Room without end, but only for those of Monday to Thursday.
        assertFound(heldBack.curve(List.of(300), List.of(0), LIVES).getFirst(), meanUpTo(5, 4 / 7.0));
    }

    @Test
    void tiersAreToldApart() {
        var arrivals = Arrivals.counted(
                Map.of(
                        Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 1000),
                        Tier.WITHIN_14_DAYS, Map.of(DayOfWeek.MONDAY, 1000)),
                1000);
        var heldBack = new HeldBack(
                arrivals,
                List.of(treatedWithin(5, AN_HOUR), new UrgentTier(Tier.WITHIN_14_DAYS, AN_HOUR, 0, 14)),
                List.of(new WeeklySession(DayOfWeek.SUNDAY, 3000)),
                0);
        var point = heldBack.curve(List.of(3000), List.of(0), LIVES).getFirst();
        // Monday's have no Sunday within five days, but two within fourteen.
        assertThat(point.foundOf())
                .hasEntrySatisfying(
                        Tier.WITHIN_5_DAYS, share -> assertThat(share.value()).isLessThan(0.05));
        assertThat(point.foundOf())
                .hasEntrySatisfying(
                        Tier.WITHIN_14_DAYS, share -> assertThat(share.value()).isGreaterThan(0.99));
    }

    @Test
    void moreHeldMinutesFindMoreAndWasteMore() {
        var heldBack = new HeldBack(
                known(3),
                List.of(treatedWithin(5, ABOUT_AN_HOUR)),
                List.of(new WeeklySession(DayOfWeek.TUESDAY, 400)),
                0.5);
        var points = heldBack.curve(List.of(60, 120, 180, 240, 300, 360), List.of(0), LIVES);
        for (var at = 1; at < points.size(); at++) {
            assertThat(points.get(at).found().orElseThrow().value())
                    .isGreaterThan(points.get(at - 1).found().orElseThrow().value());
            assertThat(points.get(at).wasted().value())
                    .isGreaterThan(points.get(at - 1).wasted().value());
        }
        assertThat(HeldBack.worthwhile(points)).isEqualTo(points);
    }

    @Test
    void whatAnotherPointOutdoesIsNotWorthWeighing() {
        var better = point(120, 0.9, 30);
        var worse = point(180, 0.9, 40);
        var other = point(60, 0.5, 10);
        assertThat(HeldBack.worthwhile(List.of(worse, better, other))).containsExactly(better, other);
        assertThat(HeldBack.worthwhile(List.of(better, better))).containsExactly(better, better);
    }

    private static Point point(int minutes, double found, double wasted) {
        return new Point(
                minutes,
                Map.of(DayOfWeek.MONDAY, minutes),
                0,
                Optional.of(new Estimate(found, 0)),
                Map.of(),
                new Estimate(wasted, 0));
    }

    @Test
    void noPartIsTooShortForMostCasesWhereThatCanBe() {
        var sessions = List.of(
                new WeeklySession(DayOfWeek.FRIDAY, 240),
                new WeeklySession(DayOfWeek.MONDAY, 240),
                new WeeklySession(DayOfWeek.WEDNESDAY, 100));
        var heldBack = new HeldBack(known(3), List.of(treatedWithin(5, ABOUT_AN_HOUR)), sessions, 0);
        assertThat(heldBack.allotted(0)).isEqualTo(Map.of(DayOfWeek.MONDAY, 0));
        assertThat(heldBack.allotted(100)).isEqualTo(Map.of(DayOfWeek.MONDAY, 100));
        assertThat(heldBack.allotted(181)).isEqualTo(Map.of(DayOfWeek.MONDAY, 91, DayOfWeek.WEDNESDAY, 90));
        assertThat(heldBack.allotted(270))
                .isEqualTo(Map.of(DayOfWeek.MONDAY, 90, DayOfWeek.WEDNESDAY, 90, DayOfWeek.FRIDAY, 90));
        assertThat(heldBack.allotted(900))
                .isEqualTo(Map.of(DayOfWeek.MONDAY, 240, DayOfWeek.WEDNESDAY, 100, DayOfWeek.FRIDAY, 240));
        assertThat(heldBack.curve(List.of(900), List.of(0), new Lives(2, 1, 1))
                        .getFirst()
                        .minutes())
                .isEqualTo(580);
    }

    @Test
    void theSameSeedGivesTheSameCurve() {
        var heldBack = new HeldBack(
                Arrivals.counted(Map.of(Tier.WITHIN_5_DAYS, Map.of(DayOfWeek.MONDAY, 20)), 10),
                List.of(treatedWithin(5, ABOUT_AN_HOUR)),
                List.of(new WeeklySession(DayOfWeek.TUESDAY, 400)),
                0.5);
        var curve = heldBack.curve(List.of(60, 180), List.of(0, 1), new Lives(50, 12, 8));
        assertThat(heldBack.curve(List.of(60, 180), List.of(0, 1), new Lives(50, 12, 8)))
                .isEqualTo(curve);
        assertThat(heldBack.curve(List.of(60, 180), List.of(0, 1), new Lives(50, 12, 9)))
                .isNotEqualTo(curve);
        // A choice is not changed by what else is asked.
        assertThat(heldBack.curve(List.of(180), List.of(1), new Lives(50, 12, 8)))
                .containsExactly(curve.get(3));
    }

    @Test
    void whatCannotBeIsRefused() {
        var tier = treatedWithin(5, AN_HOUR);
        var session = new WeeklySession(DayOfWeek.MONDAY, 60);
        assertThatThrownBy(() -> new HeldBack(known(1), List.of(), List.of(session), 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeldBack(known(1), List.of(tier), List.of(), 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeldBack(known(1), List.of(tier, tier), List.of(session), 0))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeldBack(known(1), List.of(tier), List.of(session), 1.1))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new WeeklySession(DayOfWeek.MONDAY, 0)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new UrgentTier(Tier.WITHIN_5_DAYS, AN_HOUR, 6, 5))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> treatedWithin(5, new CaseMinutes.Minutes(60, 59)))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Lives(1, 5, 0)).isInstanceOf(IllegalArgumentException.class);
        var heldBack = new HeldBack(known(1), List.of(tier), List.of(session), 0);
        assertThatThrownBy(() -> heldBack.curve(List.of(-1), List.of(0), LIVES))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> heldBack.curve(List.of(60), List.of(-1), LIVES))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
