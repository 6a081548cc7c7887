package limbqueue.booking.solver;

import static org.assertj.core.api.Assertions.assertThat;

import ai.timefold.solver.core.api.score.stream.Constraint;
import ai.timefold.solver.core.api.score.stream.ConstraintFactory;
import ai.timefold.solver.core.api.score.stream.test.ConstraintVerifier;
import java.lang.reflect.Modifier;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import limbqueue.booking.Barred;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.PlanRule;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;
import limbqueue.triage.Tier;
import org.junit.jupiter.api.Test;

/** Each rule by itself, on plans that a person might make and the search never would. */
class PlanConstraintsTest {

    private static final LocalDate AS_OF = LocalDate.of(2026, 3, 2);
    private static final LocalDate LAST_DAY = AS_OF.plusDays(20);

    private final ConstraintVerifier<PlanConstraints, Timetable> verifier =
            ConstraintVerifier.build(new PlanConstraints(), Timetable.class, Appointment.class);

    private static Session session(String id, SessionKind kind, int day, int hour, int minutes, Capability... has) {
        var start = AS_OF.plusDays(day).atTime(hour, 0);
        return new Session(id, kind, start, start.plusMinutes(minutes), minutes, id, id, Set.of(has), false);
    }

    private static Step step(StepKind kind, int minutes) {
        return new Step(
                kind, new StepMinutes(minutes, minutes), Set.of(), List.of(), 0, Optional.empty(), Optional.empty());
    }

    private static WaitingCase waiting(String reference, Tier tier, Step... steps) {
        return new WaitingCase(reference, "P" + reference, tier, AS_OF.plusDays(5), List.of(steps));
    }

    /** A timetable with each step, in order, in the session of that index; -1 for none. */
    private static Object[] placed(List<Session> sessions, List<WaitingCase> cases, int... at) {
        var timetable = Timetable.of(new Waiting(AS_OF, LAST_DAY, sessions, cases));
        for (var i = 0; i < at.length; i++) {
            if (at[i] >= 0) {
                timetable.getAppointments().get(i).setSlot(timetable.slots().get(at[i]));
            }
        }
        return timetable.getAppointments().toArray();
    }

    private void costs(BiFunction<PlanConstraints, ConstraintFactory, Constraint> rule, long points, Object... given) {
        verifier.verifyThat(rule).given(given).penalizesBy(points);
    }

    private static final List<Session> ROOMS = List.of(
            session("A", SessionKind.CLINIC, 1, 8, 60),
            session("B", SessionKind.PROCEDURE_ROOM, 1, 8, 120),
            session("C", SessionKind.PROCEDURE_ROOM, 8, 8, 120, Capability.ARM_ACCESS));

    /** One rule, one constraint, one method named as the rule is: {@code IN_ORDER} in {@code inOrder}. */
    @Test
    void everyRuleIsAConstraintWithAMethodOfItsName() {
        var judged = new ArrayList<String>();
        verifier.verifyThat((rules, factory) -> {
                    var all = rules.defineConstraints(factory);
                    for (var one : all) {
                        judged.add(one.getConstraintRef().id());
                    }
                    return all[0];
                })
                .given()
                .penalizesBy(0);
        assertThat(judged).containsExactlyElementsOf(names(PlanRule.values()));
        assertThat(Arrays.stream(PlanConstraints.class.getDeclaredMethods())
                        .filter(method -> method.getReturnType() == Constraint.class)
                        .filter(method -> !Modifier.isPrivate(method.getModifiers()))
                        .map(method -> method.getName().toLowerCase(Locale.ROOT)))
                .containsExactlyInAnyOrderElementsOf(names(PlanRule.values()).stream()
                        .map(name -> name.replace("_", "").toLowerCase(Locale.ROOT))
                        .toList());
    }

    private static List<String> names(PlanRule... rules) {
        return Arrays.stream(rules).map(PlanRule::name).toList();
    }

    @Test
    void everyRuleIsOneSentenceOfItsOwnAndEveryLevelHasOne() {
        assertThat(PlanRule.values())
                .extracting(PlanRule::sentence)
                .doesNotHaveDuplicates()
                .allMatch(sentence -> sentence.endsWith(".") && !sentence.contains(". "));
        assertThat(PlanRule.values()).extracting(PlanRule::level).contains(PlanRule.Level.values());
        assertThat(PlanRule.Level.values()).hasSize(Timetable.HARD_LEVELS + Timetable.SOFT_LEVELS);
    }

    @Test
    void aSessionOfAnotherKindOrWithoutWhatIsNeededDoesNotSuit() {
        var arm = new Step(
                StepKind.PROCEDURE,
                new StepMinutes(30, 30),
                Set.of(Capability.ARM_ACCESS),
                List.of(),
                0,
                Optional.empty(),
                Optional.empty());
        var one = List.of(waiting("1", Tier.WITHIN_6_WEEKS, arm));
        costs(PlanConstraints::suitableSession, 1, placed(ROOMS, one, 0));
        costs(PlanConstraints::suitableSession, 1, placed(ROOMS, one, 1));
        costs(PlanConstraints::suitableSession, 0, placed(ROOMS, one, 2));
    }

    @Test
    void aGateThatIsShutKeepsAStepOut() {
        var barred = new Step(
                StepKind.PROCEDURE,
                new StepMinutes(30, 30),
                Set.of(),
                List.of(Barred.before(AS_OF.plusDays(8), "not yet")),
                0,
                Optional.empty(),
                Optional.empty());
        var one = List.of(waiting("1", Tier.WITHIN_6_WEEKS, barred));
        costs(PlanConstraints::openGate, 1, placed(ROOMS, one, 1));
        costs(PlanConstraints::openGate, 0, placed(ROOMS, one, 2));
    }

    @Test
    void aStepComesAfterTheOneBeforeItAndNotWithoutIt() {
        var one = List.of(waiting("1", Tier.WITHIN_6_WEEKS, step(StepKind.CLINIC, 30), step(StepKind.PROCEDURE, 30)));
        costs(PlanConstraints::inOrder, 1, placed(ROOMS, one, 0, 1));
        costs(PlanConstraints::inOrder, 1, placed(ROOMS, one, -1, 2));
        costs(PlanConstraints::inOrder, 0, placed(ROOMS, one, 0, 2));
        costs(PlanConstraints::inOrder, 0, placed(ROOMS, one, 0, -1));
    }

    @Test
    void aResultThatHasRunOutCarriesNoProcedure() {
        var clinic = new Step(
                StepKind.CLINIC, new StepMinutes(30, 30), Set.of(), List.of(), 0, Optional.of(6), Optional.empty());
        var longer = new Step(
                StepKind.CLINIC, new StepMinutes(30, 30), Set.of(), List.of(), 0, Optional.of(7), Optional.empty());
        costs(
                PlanConstraints::resultStillCounts,
                1,
                placed(ROOMS, List.of(waiting("1", Tier.WITHIN_6_WEEKS, clinic, step(StepKind.PROCEDURE, 30))), 0, 2));
        costs(
                PlanConstraints::resultStillCounts,
                0,
                placed(ROOMS, List.of(waiting("1", Tier.WITHIN_6_WEEKS, longer, step(StepKind.PROCEDURE, 30))), 0, 2));
    }

    @Test
    void onePatientIsNotInTwoSessionsAtATime() {
        var twice = List.of(
                new WaitingCase("1", "P", Tier.WITHIN_14_DAYS, AS_OF, List.of(step(StepKind.CLINIC, 30))),
                new WaitingCase("2", "P", Tier.WITHIN_14_DAYS, AS_OF, List.of(step(StepKind.PROCEDURE, 30))));
        costs(PlanConstraints::onePlaceAtATime, 1, placed(ROOMS, twice, 0, 1));
        costs(PlanConstraints::onePlaceAtATime, 0, placed(ROOMS, twice, 0, 2));
    }

    @Test
    void minutesBeyondTheSessionCount() {
        var cases = List.of(
                waiting("1", Tier.WITHIN_6_WEEKS, step(StepKind.PROCEDURE, 70)),
                waiting("2", Tier.WITHIN_6_WEEKS, step(StepKind.PROCEDURE, 55)));
        costs(PlanConstraints::roomInTheSession, 5, placed(ROOMS, cases, 1, 1));
        costs(PlanConstraints::roomInTheSession, 0, placed(ROOMS, cases, 1, 2));
    }

    @Test
    void heldTimeIsForUrgentCasesAndForWhoHasBeenToldOfThePlace() {
        var rooms = List.of(session("B", SessionKind.PROCEDURE_ROOM, 3, 8, 120).holding(new HeldTime(60, 2)));
        var urgent = waiting("1", Tier.WITHIN_5_DAYS, step(StepKind.PROCEDURE, 60));
        var ordinary = waiting("2", Tier.WITHIN_14_DAYS, step(StepKind.PROCEDURE, 65));
        var told = waiting(
                "3",
                Tier.WITHIN_6_WEEKS,
                new Step(
                        StepKind.PROCEDURE,
                        new StepMinutes(70, 70),
                        Set.of(),
                        List.of(),
                        0,
                        Optional.empty(),
                        Optional.of("B")));
        costs(PlanConstraints::timeHeld, 0, placed(rooms, List.of(urgent), 0));
        costs(PlanConstraints::timeHeld, 5, placed(rooms, List.of(urgent, ordinary), 0, 0));
        costs(PlanConstraints::timeHeld, 0, placed(rooms, List.of(told), 0));
        costs(PlanConstraints::timeHeld, 65, placed(rooms, List.of(ordinary, told), 0, 0));
        costs(PlanConstraints::timeHeld, 0, placed(rooms, List.of(ordinary), -1));
    }

    @Test
    void aBrokenPromiseCountsMoreThanAllDaysAndEachDayOne() {
        for (var tier : List.of(Tier.WITHIN_5_DAYS, Tier.WITHIN_14_DAYS)) {
            var one = List.of(waiting("1", tier, step(StepKind.PROCEDURE, 30)));
            BiFunction<PlanConstraints, ConstraintFactory, Constraint> rule =
                    tier == Tier.WITHIN_5_DAYS ? PlanConstraints::promiseOf5Days : PlanConstraints::promiseOf14Days;
            costs(rule, 0, placed(ROOMS, one, 1));
            costs(rule, 10_000_003, placed(ROOMS, one, 2));
            // 15 days from the target to the last day, and 28.
            costs(rule, 10_000_043, placed(ROOMS, one, -1));
        }
    }

    @Test
    void latenessOfTheRestIsWeighed() {
        costs(
                PlanConstraints::lateness,
                9,
                placed(ROOMS, List.of(waiting("1", Tier.WITHIN_6_WEEKS, step(StepKind.PROCEDURE, 30))), 2));
        costs(
                PlanConstraints::lateness,
                3,
                placed(ROOMS, List.of(waiting("1", Tier.WITHIN_18_WEEKS, step(StepKind.PROCEDURE, 30))), 2));
    }

    @Test
    void aSessionThatMayEndLateCountsTheMinutesItLacks() {
        // One case of which nine of ten take no more than 150 minutes, in 120.
        var one = new Step(
                StepKind.PROCEDURE,
                new StepMinutes(100, 150),
                Set.of(),
                List.of(),
                0,
                Optional.empty(),
                Optional.empty());
        costs(PlanConstraints::endsInTime, 30, placed(ROOMS, List.of(waiting("1", Tier.WITHIN_6_WEEKS, one)), 1));
    }

    @Test
    void aToldAppointmentThatIsMovedOrDroppedCountsOnce() {
        var told = new Step(
                StepKind.PROCEDURE,
                new StepMinutes(30, 30),
                Set.of(),
                List.of(),
                0,
                Optional.empty(),
                Optional.of("B"));
        var one = List.of(waiting("1", Tier.WITHIN_6_WEEKS, told));
        costs(PlanConstraints::toldAppointmentKept, 0, placed(ROOMS, one, 1));
        costs(PlanConstraints::toldAppointmentKept, 1, placed(ROOMS, one, 2));
        costs(PlanConstraints::toldAppointmentKept, 1, placed(ROOMS, one, -1));
    }

    @Test
    void anExpectedMinuteCountsOnceForEveryDayAhead() {
        var one = List.of(waiting("1", Tier.WITHIN_6_WEEKS, step(StepKind.PROCEDURE, 30)));
        costs(PlanConstraints::noIdleMinutes, 30, placed(ROOMS, one, 1));
        costs(PlanConstraints::noIdleMinutes, 240, placed(ROOMS, one, 2));
    }
}
