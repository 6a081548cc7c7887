package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.booking.Plan.CasePlan;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Time that a session holds for urgent cases: the planner keeps it for them until it is released. */
class HeldTimeTest {

    private static final LocalDate DAY = LocalDate.of(2026, 3, 13);
    private static final Search SEARCH = Search.of(1, 400);

    /** A session of two hours on {@link #DAY}, the second of which is held until two days before. */
    private static Session session(HeldTime held) {
        var start = DAY.atTime(8, 0);
        return new Session(
                        "ROOM",
                        SessionKind.PROCEDURE_ROOM,
                        start,
                        start.plusMinutes(120),
                        120,
                        "Angiography room",
                        "Dr Imre",
                        Set.of(),
                        false)
                .holding(held);
    }

    private static WaitingCase one(String reference, Tier tier, int minutes, Optional<String> told) {
        return new WaitingCase(
                reference,
                "P" + reference,
                tier,
                DAY.plusDays(10),
                List.of(new Step(
                        StepKind.PROCEDURE,
                        new StepMinutes(minutes, minutes),
                        Set.of(),
                        List.of(),
                        0,
                        Optional.empty(),
                        told)));
    }

    private static WaitingCase one(String reference, Tier tier, int minutes) {
        return one(reference, tier, minutes, Optional.empty());
    }

    private static Plan plan(LocalDate asOf, HeldTime held, WaitingCase... cases) {
        return Planner.plan(Waiting.untilTheLastSession(asOf, List.of(session(held)), List.of(cases)), SEARCH);
    }

    private static List<String> placed(Plan plan) {
        assertThat(plan.levels().getFirst().points())
                .as("nothing that cannot be")
                .isZero();
        return plan.cases().stream()
                .filter(CasePlan::placed)
                .map(CasePlan::reference)
                .toList();
    }

    @ParameterizedTest(name = "{0} minutes: {1}")
    @CsvSource({"59, true", "60, true", "61, false"})
    void anOrdinaryCaseHasWhatIsNotHeldAndNoMinuteMore(int minutes, boolean fits) {
        var plan = plan(DAY.minusDays(5), new HeldTime(60, 2), one("1", Tier.WITHIN_6_WEEKS, minutes));
        assertThat(placed(plan)).hasSize(fits ? 1 : 0);
        if (!fits) {
            assertThat(plan.cases().getFirst().why())
                    .isEqualTo(
                            "Not placed: procedure. " + PlanRule.TIME_HELD.sentence()
                                    + " Sessions of the procedure room: 1 session: what is left of it is held for urgent cases.");
        }
    }

    @ParameterizedTest
    @EnumSource(
            value = Tier.class,
            mode = EnumSource.Mode.EXCLUDE,
            names = {"ADVICE_ONLY"})
    void onlyThoseOfTheSameDayAndOf5DaysMayUseIt(Tier tier) {
        var plan = plan(DAY.minusDays(5), new HeldTime(60, 2), one("1", tier, 120));
        assertThat(placed(plan)).hasSize(tier == Tier.SAME_DAY || tier == Tier.WITHIN_5_DAYS ? 1 : 0);
    }

    @ParameterizedTest(name = "planned {0} days before, released after {1}: {2}")
    @CsvSource({"3, 2, false", "2, 2, false", "1, 2, true", "1, 0, false", "0, 0, false", "0, 1, true", "28, 28, false"
    })
    void itIsHeldUntilTheEndOfTheDayOfItsRelease(int daysBefore, int releaseDays, boolean released) {
        assertThat(placed(plan(
                        DAY.minusDays(daysBefore), new HeldTime(60, releaseDays), one("1", Tier.WITHIN_18_WEEKS, 100))))
                .hasSize(released ? 1 : 0);
    }

    @Test
    void urgentCasesTakeWhatIsHeldFirstSoThatTheRestIsThereForOthers() {
        var plan = plan(
                DAY.minusDays(5),
                new HeldTime(60, 2),
                one("urgent", Tier.WITHIN_5_DAYS, 60),
                one("ordinary", Tier.WITHIN_18_WEEKS, 60));
        assertThat(placed(plan)).containsExactlyInAnyOrder("urgent", "ordinary");
    }

    @Test
    void severalOrdinaryCasesTogetherHaveNoMoreThanWhatIsNotHeld() {
        var plan = plan(
                DAY.minusDays(5),
                new HeldTime(60, 2),
                one("1", Tier.WITHIN_14_DAYS, 40),
                one("2", Tier.WITHIN_6_WEEKS, 20),
                one("3", Tier.WITHIN_18_WEEKS, 20));
        assertThat(placed(plan)).containsExactly("1", "2");
        assertThat(plan.sessions()).singleElement().satisfies(load -> {
            assertThat(load.held()).isEqualTo(60);
            assertThat(load.idle()).isEqualTo(60);
        });
    }

    @Test
    void whoHasBeenToldOfThePlaceKeepsItAndNobodyElseFollows() {
        var told = one("told", Tier.WITHIN_6_WEEKS, 80, Optional.of("ROOM"));
        assertThat(placed(plan(DAY.minusDays(5), new HeldTime(60, 2), told))).containsExactly("told");
        assertThat(placed(plan(DAY.minusDays(5), new HeldTime(60, 2), told, one("other", Tier.WITHIN_18_WEEKS, 10))))
                .containsExactly("told");
    }

    @Test
    void forAnEarlierPlaceItIsSaidWhatWouldHaveToBeReleased() {
        var later = DAY.plusDays(3).atTime(8, 0);
        var open = new Session(
                "LATER",
                SessionKind.PROCEDURE_ROOM,
                later,
                later.plusMinutes(120),
                120,
                "Angiography room",
                "Dr Imre",
                Set.of(),
                false);
        var plan = Planner.plan(
                Waiting.untilTheLastSession(
                        DAY.minusDays(5),
                        List.of(session(new HeldTime(60, 2)), open),
                        List.of(one("1", Tier.WITHIN_6_WEEKS, 90))),
                SEARCH);
        assertThat(plan.cases().getFirst().forEarlier())
                .containsExactly("ROOM on 2026-03-13: 60 minutes of it are held for urgent cases until the end of"
                        + " 2026-03-11; 30 of them would have to be released");
    }

    @Test
    void whatIsPlannedWithHeldTimeIsTheBestOfAllPlans() {
        var spoke = 0;
        for (long seed = 0; seed < 20; seed++) {
            var waiting = TinyPractice.holding(seed);
            var judge = new HandJudge(waiting);
            var best = judge.best();
            var plan = Planner.plan(waiting, Search.of(1, 6_000));
            assertThat(judge.impossible(HandJudge.placesOf(waiting, plan)))
                    .as("practice %d", seed)
                    .isEmpty();
            assertThat(levels(plan)).as("practice %d", seed).isEqualTo(best);
            spoke += Arrays.equals(best, new HandJudge(TinyPractice.of(seed)).best()) ? 0 : 1;
        }
        assertThat(spoke).as("practices in which held time changes the plan").isGreaterThan(5);
    }

    private static long[] levels(Plan plan) {
        return plan.levels().stream().skip(1).mapToLong(Plan.LevelScore::points).toArray();
    }

    @Test
    void moreThanThereIsCannotBeHeld() {
        assertThat(session(new HeldTime(120, 2)).keptOn(DAY.minusDays(5))).isEqualTo(120);
        assertThatThrownBy(() -> session(new HeldTime(121, 2))).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeldTime(-1, 2)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeldTime(1, -1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new HeldTime(1, 29)).isInstanceOf(IllegalArgumentException.class);
    }
}
