package limbqueue.booking.solver;

import static org.assertj.core.api.Assertions.assertThat;

import ai.timefold.solver.core.api.score.BendableScore;
import ai.timefold.solver.core.config.phase.PhaseConfig;
import java.time.LocalTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import limbqueue.booking.Capability;
import limbqueue.booking.GeneratedPractice;
import limbqueue.booking.Search;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class BookingOrderTest {

    private static final Search SEARCH = Search.of(1, 20_000);

    /** The solver's rules are the judge, and booking one after the other as the solver does it is what it has to beat. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void anOrderThatIsAnnealedBreaksNoRuleAndIsBetterThanThatOfUrgency(long seed) {
        var waiting = DraftTest.withEveryRule(GeneratedPractice.steady(seed, 60));
        var booked = score(waiting, PlanSearch.phase(context -> {}));
        var ordered = score(waiting, PlanSearch.phase(new BookingOrder(SEARCH)));
        assertThat(booked.isFeasible()).isTrue();
        assertThat(ordered.isFeasible()).as("%s", ordered).isTrue();
        assertThat(ordered).isGreaterThan(booked);
    }

    /**
     * A long and two short cases, two sessions, of which the first has time for the long one or for both that are short. By order of
     * target the long one comes first and both others a week late; the other way round one is.
     */
    @Test
    void whoComesFirstMayWaitWhereTwoOthersComeInTimeForIt() {
        var monday = GeneratedPractice.AS_OF;
        var waiting = Waiting.untilTheLastSession(
                monday,
                List.of(room("first", 0), room("second", 7)),
                List.of(procedure("long", 0, 240), procedure("one", 1, 110), procedure("other", 1, 110)));
        assertThat(-score(waiting, PlanSearch.phase(context -> {})).softScore(3))
                .isEqualTo(6 + 6);
        assertThat(-score(waiting, PlanSearch.phase(new BookingOrder(SEARCH))).softScore(3))
                .isEqualTo(7);
    }

    /** With no session at all there is nothing to look at, and it ends all the same. */
    @Test
    void itEndsWhereThereIsNoSession() {
        var waiting = Waiting.untilTheLastSession(
                GeneratedPractice.AS_OF, List.of(), List.of(procedure("one", 1, 60), procedure("other", 1, 60)));
        assertThat(score(waiting, PlanSearch.phase(new BookingOrder(SEARCH))).isFeasible())
                .isTrue();
    }

    private static BendableScore score(Waiting waiting, PhaseConfig<?> phase) {
        var solved = PlanSearch.solved(Timetable.of(waiting), 1, phase, PlanConstraints.class);
        return Objects.requireNonNull(solved.getScore(), "what has been solved has a score");
    }

    private static Session room(String id, int days) {
        var start = GeneratedPractice.AS_OF.plusDays(days).atTime(LocalTime.of(8, 0));
        return new Session(
                id,
                SessionKind.PROCEDURE_ROOM,
                start,
                start.plusMinutes(240),
                240,
                id,
                id,
                EnumSet.noneOf(Capability.class),
                false);
    }

    private static WaitingCase procedure(String reference, int targetDays, int minutes) {
        var step = new Step(
                StepKind.PROCEDURE,
                new StepMinutes(minutes, minutes),
                Set.of(),
                List.of(),
                0,
                Optional.empty(),
                Optional.empty());
        return new WaitingCase(
                reference,
                "P " + reference,
                Tier.WITHIN_18_WEEKS,
                GeneratedPractice.AS_OF.plusDays(targetDays),
                List.of(step));
    }
}
