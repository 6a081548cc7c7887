package limbqueue.booking.solver;

import static org.assertj.core.api.Assertions.assertThat;

import ai.timefold.solver.core.api.score.BendableScore;
import ai.timefold.solver.core.api.solver.SolutionManager;
import ai.timefold.solver.core.api.solver.SolverFactory;
import ai.timefold.solver.core.config.solver.SolverConfig;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.SplittableRandom;
import limbqueue.booking.GeneratedPractice;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Session;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a draft says of changes, beside the rules of {@link PlanConstraints} as the solver asks them about the whole timetable. */
class DraftTest {

    private static final int CHANGES = 400;

    private static final SolutionManager<Timetable, BendableScore> RULES =
            SolutionManager.create(SolverFactory.create(new SolverConfig()
                    .withSolutionClass(Timetable.class)
                    .withEntityClasses(Appointment.class)
                    .withConstraintProviderClass(PlanConstraints.class)));

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void whatIsDrawnBreaksNoRuleAndWinsAndLosesWhatTheRulesSay(long seed) {
        var timetable = Timetable.of(withEveryRule(GeneratedPractice.of(seed, 60)));
        var appointments = timetable.getAppointments();
        var drawn = new DrawnChanges(appointments, Load.of(timetable, new Overruns()), new SplittableRandom(seed));
        var spoke = new boolean[Timetable.SOFT_LEVELS];
        var before = score(timetable);
        for (var i = 0; i < CHANGES; i++) {
            var draft = drawn.draw();
            var lost = draft.lost().clone();
            appointments.forEach(one -> one.setSlot(draft.at(one)));
            drawn.commit();
            var after = score(timetable);
            assertThat(after.isFeasible()).as("change %d: %s", i, after).isTrue();
            for (var level = 0; level < lost.length; level++) {
                assertThat(before.softScore(level) - after.softScore(level))
                        .as("change %d, level %d", i, level)
                        .isEqualTo(lost[level]);
                spoke[level] |= lost[level] != 0;
            }
            before = after;
        }
        assertThat(spoke).as("levels at which something changed").containsOnly(true);
        assertThat(appointments)
                .as("who has a place")
                .filteredOn(one -> one.getSlot() != null)
                .hasSizeGreaterThan(appointments.size() / 2);
    }

    /** Annealing moves the appointments themselves only when it is done. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void whatIsDrawnGoesByTheDraftAndNotByWhereTheAppointmentsWereInTheBeginning(long seed) {
        var follows = Timetable.of(GeneratedPractice.of(seed, 60));
        var stays = Timetable.of(GeneratedPractice.of(seed, 60));
        var one = new DrawnChanges(
                follows.getAppointments(), Load.of(follows, new Overruns()), new SplittableRandom(seed));
        var other =
                new DrawnChanges(stays.getAppointments(), Load.of(stays, new Overruns()), new SplittableRandom(seed));
        for (var i = 0; i < 10 * CHANGES; i++) {
            var draft = one.draw();
            var same = other.draw();
            for (var number = 0; number < follows.getAppointments().size(); number++) {
                var at = draft.at(follows.getAppointments().get(number));
                assertThat(numberOf(same.at(stays.getAppointments().get(number))))
                        .as("change %d, appointment %d", i, number)
                        .isEqualTo(numberOf(at));
                follows.getAppointments().get(number).setSlot(at);
            }
            one.commit();
            other.commit();
        }
    }

    private static int numberOf(@Nullable Slot slot) {
        return slot == null ? -1 : slot.number();
    }

    private static BendableScore score(Timetable timetable) {
        return Objects.requireNonNull(RULES.update(timetable), "every timetable has a score");
    }

    /** Two cases of each patient, results that run out, and sessions that hold time. */
    static Waiting withEveryRule(Waiting practice) {
        var sessions = new ArrayList<Session>();
        for (var session : practice.sessions()) {
            sessions.add(sessions.size() % 2 == 0 ? session : session.holding(new HeldTime(session.minutes() / 3, 2)));
        }
        var cases = new ArrayList<WaitingCase>();
        for (var one : practice.cases()) {
            cases.add(new WaitingCase(
                    one.reference(),
                    "P" + cases.size() / 2,
                    one.tier(),
                    one.target(),
                    one.steps().stream().map(DraftTest::runningOut).toList()));
        }
        return new Waiting(practice.asOf(), practice.lastDay(), List.copyOf(sessions), cases);
    }

    private static Step runningOut(Step step) {
        return step.kind() == StepKind.PROCEDURE
                ? step
                : new Step(
                        step.kind(),
                        step.minutes(),
                        step.needs(),
                        step.barred(),
                        step.daysAfterPrevious(),
                        Optional.of(14),
                        step.told());
    }
}
