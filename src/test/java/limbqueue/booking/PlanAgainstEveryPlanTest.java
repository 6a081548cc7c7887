package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The plan against the best of all plans, which {@link HandJudge} finds by trying every one in practices small enough for it. */
class PlanAgainstEveryPlanTest {

    private static final int PRACTICES = 40;
    private static final Search SEARCH = Search.of(1, 6_000);

    private static long[] levels(Plan plan) {
        return plan.levels().stream().skip(1).mapToLong(Plan.LevelScore::points).toArray();
    }

    @Test
    void thePlanIsTheBestOfAllPlansAtEveryLevel() {
        var spoke = new boolean[6];
        for (long seed = 0; seed < PRACTICES; seed++) {
            var waiting = TinyPractice.of(seed);
            var best = new HandJudge(waiting).best();
            assertThat(levels(Planner.plan(waiting, SEARCH)))
                    .as("practice %d", seed)
                    .isEqualTo(best);
            for (var level = 0; level < best.length; level++) {
                spoke[level] |= best[level] > 0;
            }
        }
        assertThat(spoke).as("each level matters in some practice").containsOnly(true);
    }

    @Test
    void whatIsPlannedCanBeAndIsJudgedAsByHandWithOrWithoutASearch() {
        for (long seed = 0; seed < PRACTICES; seed++) {
            var waiting = TinyPractice.of(1_000 + seed);
            var judge = new HandJudge(waiting);
            for (var steps : List.of(0, 200)) {
                var plan = Planner.plan(waiting, Search.of(seed, steps));
                var places = HandJudge.placesOf(waiting, plan);
                assertThat(judge.impossible(places)).as("practice %d", seed).isEmpty();
                assertThat(plan.levels().getFirst().points()).isZero();
                assertThat(levels(plan)).as("practice %d", seed).isEqualTo(judge.levels(places));
            }
        }
    }

    @Test
    void oneSessionMoreNeverMakesTheBestPlanWorseAtTheFirstLevelThatChanges() {
        for (long seed = 0; seed < 25; seed++) {
            var waiting = TinyPractice.of(seed);
            var more = new ArrayList<>(waiting.sessions());
            more.add(TinyPractice.another(seed));
            var with = new Waiting(waiting.asOf(), waiting.lastDay(), more, waiting.cases());
            assertThat(Arrays.compare(levels(Planner.plan(with, SEARCH)), new HandJudge(waiting).best()))
                    .as("practice %d", seed)
                    .isLessThanOrEqualTo(0);
        }
    }

    @Test
    void theOrderInWhichThingsAreHandedInDoesNotMatter() {
        for (long seed = 0; seed < 20; seed++) {
            var waiting = TinyPractice.of(seed);
            var sessions = new ArrayList<>(waiting.sessions());
            var cases = new ArrayList<>(waiting.cases());
            Collections.shuffle(sessions, new Random(seed));
            Collections.shuffle(cases, new Random(seed));
            var shuffled = new Waiting(waiting.asOf(), waiting.lastDay(), sessions, cases);
            assertThat(Planner.plan(shuffled, Search.of(3, 2_000)))
                    .as("practice %d", seed)
                    .isEqualTo(Planner.plan(waiting, Search.of(3, 2_000)));
        }
    }

    @Test
    void theSameSeedAndLimitGiveTheSamePlan() {
        for (long seed = 0; seed < 10; seed++) {
            var waiting = TinyPractice.of(seed);
            assertThat(Planner.plan(waiting, Search.of(seed, 2_000)))
                    .isEqualTo(Planner.plan(TinyPractice.of(seed), Search.of(seed, 2_000)));
        }
    }

    @Test
    void aSearchThatEndsByTheClockGivesABestPlanToo() {
        for (long seed = 0; seed < 3; seed++) {
            var waiting = TinyPractice.of(seed);
            var search = new Search(1, 60_000, Optional.of(Duration.ofSeconds(60)));
            assertThat(levels(Planner.plan(waiting, search)))
                    .as("practice %d", seed)
                    .isEqualTo(new HandJudge(waiting).best());
        }
    }

    @Test
    void whoHasNoPlaceIsToldTheRuleThatBindsAndWhoHasOneWhyItIsThere() {
        var without = 0;
        for (long seed = 0; seed < PRACTICES; seed++) {
            var plan = Planner.plan(TinyPractice.of(seed), SEARCH);
            for (var one : plan.cases()) {
                if (one.placed()) {
                    assertThat(one.why())
                            .as("practice %d %s", seed, one.reference())
                            .matches("(In time|\\d+ days? after).*");
                    assertThat(one.steps())
                            .allSatisfy(step -> assertThat(step.why()).isNotBlank());
                } else {
                    without++;
                    assertThat(Arrays.stream(PlanRule.values()).map(PlanRule::sentence))
                            .as("practice %d %s: %s", seed, one.reference(), one.why())
                            .anyMatch(one.why()::contains);
                }
                assertThat(one.toString()).as("practice %d", seed).doesNotContain("the search did not come to it");
            }
        }
        assertThat(without).as("cases without a place").isPositive();
    }
}
