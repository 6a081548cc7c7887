package limbqueue.booking;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.HashSet;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/**
 * The new plan against the best of all plans, found by trying every one in practices small enough for it: an emergency has its
 * room, then the promises, then the fewest told patients moved, then the fewest places.
 */
class ReplannerTest {

    private static final int PRACTICES = 40;
    private static final Search SEARCH = Search.of(1, 6_000);

    private static Replan replan(DisturbedPractice practice, Search search) {
        return Replanner.replan(practice.before(), practice.kept(), practice.disruption(), search);
    }

    private static int indexOf(Waiting waiting, String session) {
        return waiting.sessions().stream().map(Session::id).toList().indexOf(session);
    }

    /** The kept places with the moves made; whatever is no move stays. */
    private static int[][] places(DisturbedPractice practice, Replan replan) {
        var after = practice.after();
        var places = new int[after.cases().size()][];
        for (var c = 0; c < places.length; c++) {
            var of = after.cases().get(c);
            places[c] = of.steps().stream()
                    .mapToInt(step -> replan.moves().stream()
                            .filter(move -> move.reference().equals(of.reference()) && move.step() == step.kind())
                            .findFirst()
                            .map(Replan.Moved::to)
                            .orElseGet(() -> practice.kept().of(of.reference(), step.kind()))
                            .map(session -> indexOf(after, session))
                            .orElse(HandJudge.NONE))
                    .toArray();
        }
        return places;
    }

    /** What the levels say, in their order, as a person would count them. */
    private static long[] judged(DisturbedPractice practice, HandJudge judge, int[][] places) {
        var after = practice.after();
        var levels = judge.levels(places);
        var emergencies = 0;
        var moved = 0;
        var later = new long[2];
        var told = new HashSet<String>();
        for (var c = 0; c < places.length; c++) {
            var of = after.cases().get(c);
            if (of.tier() == Tier.SAME_DAY && places[c][0] == HandJudge.NONE) {
                emergencies++;
            }
            for (var s = 0; s < places[c].length; s++) {
                var step = of.steps().get(s);
                var kept = practice.kept().of(of.reference(), step.kind());
                if (kept.isPresent() && HandJudge.level(of.tier()) < 2) {
                    var at = places[c][s];
                    var on = at == HandJudge.NONE
                            ? Optional.<LocalDate>empty()
                            : Optional.of(after.sessions().get(at).date());
                    var was = practice.before().sessions().stream()
                            .filter(session -> session.id().equals(kept.get()))
                            .map(Session::date)
                            .findFirst();
                    later[HandJudge.level(of.tier())] += Math.max(0, judge.late(c, s, on) - judge.late(c, s, was));
                }
                if (kept.isPresent() && indexOf(after, kept.get()) != places[c][s]) {
                    moved++;
                    if (step.told().isPresent()) {
                        told.add(of.patient());
                    }
                }
            }
        }
        return new long[] {
            emergencies, later[0], later[1], told.size(), moved, levels[2], levels[0] + levels[1] + levels[3], levels[5]
        };
    }

    private static long[] points(Replan replan) {
        return replan.levels().stream().mapToLong(Replan.LevelScore::points).toArray();
    }

    @Test
    void theNewPlanIsTheBestOfAllPlansAtEveryLevel() {
        var spoke = new boolean[ReplanLevel.values().length];
        for (long seed = 0; seed < PRACTICES; seed++) {
            var practice = DisturbedPractice.of(seed);
            var judge = new HandJudge(practice.after());
            var best = judge.best(places -> judged(practice, judge, places));
            var replan = replan(practice, SEARCH);
            var places = places(practice, replan);
            assertThat(judge.impossible(places)).as("practice %d", seed).isEmpty();
            assertThat(judged(practice, judge, places))
                    .as("practice %d, %s: what it says of itself", seed, practice.disruption())
                    .isEqualTo(points(replan));
            assertThat(points(replan))
                    .as("practice %d, %s", seed, practice.disruption())
                    .isEqualTo(best);
            for (var level = 0; level < best.length; level++) {
                spoke[level] |= best[level] > 0;
            }
        }
        assertThat(Arrays.copyOfRange(spoke, 1, spoke.length))
                .as("each level matters in some practice")
                .containsOnly(true);
    }

    @Test
    void theSameSeedAndLimitGiveTheSamePlanWhateverTheOrderInWhichThingsAreHandedIn() {
        for (long seed = 0; seed < 12; seed++) {
            var practice = DisturbedPractice.of(seed);
            var sessions = new ArrayList<>(practice.before().sessions());
            var cases = new ArrayList<>(practice.before().cases());
            Collections.shuffle(sessions, new Random(seed));
            Collections.shuffle(cases, new Random(seed));
            var shuffled =
                    new Waiting(practice.before().asOf(), practice.before().lastDay(), sessions, cases);
            assertThat(Replanner.replan(shuffled, practice.kept(), practice.disruption(), Search.of(3, 1_000)))
                    .as("practice %d", seed)
                    .isEqualTo(replan(practice, Search.of(3, 1_000)));
        }
    }

    @Test
    void whoHasNoPlaceIsToldTheRuleThatBindsAndEveryMoveSaysWhy() {
        var without = 0;
        for (long seed = 0; seed < PRACTICES; seed++) {
            var replan = replan(DisturbedPractice.of(seed), Search.of(1, 1_000));
            assertThat(replan.moves())
                    .as("practice %d", seed)
                    .allSatisfy(move -> assertThat(move.why()).isNotBlank());
            for (var one : replan.without()) {
                without++;
                assertThat(Arrays.stream(PlanRule.values()).map(PlanRule::sentence))
                        .as("practice %d %s: %s", seed, one.reference(), one.why())
                        .anyMatch(one.why()::contains);
            }
        }
        assertThat(without).as("cases without a place").isPositive();
    }

    @Test
    void whatCannotHaveHappenedIsRefusedInWords() {
        var practice = DisturbedPractice.of(0);
        var from = practice.before().asOf().atStartOfDay();
        assertThatThrownBy(() -> Replanner.replan(
                        practice.before(),
                        practice.kept(),
                        new PatientCancels("nobody", from, from.plusDays(1)),
                        SEARCH))
                .hasMessageContaining("nobody");
        assertThatThrownBy(() -> new PatientCancels("C1", from, from)).hasMessageContaining("no time");
        assertThatThrownBy(() -> new Emergency("E", 0, Set.of())).hasMessageContaining("minutes");
    }
}
