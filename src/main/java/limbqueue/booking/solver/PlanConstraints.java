package limbqueue.booking.solver;

import static ai.timefold.solver.core.api.score.stream.ConstraintCollectors.sum;
import static ai.timefold.solver.core.api.score.stream.Joiners.equal;
import static ai.timefold.solver.core.api.score.stream.Joiners.lessThan;

import ai.timefold.solver.core.api.score.BendableScore;
import ai.timefold.solver.core.api.score.stream.Constraint;
import ai.timefold.solver.core.api.score.stream.ConstraintFactory;
import ai.timefold.solver.core.api.score.stream.ConstraintProvider;
import ai.timefold.solver.core.api.score.stream.tri.TriConstraintStream;
import limbqueue.booking.PlanRule;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.StepMinutes;

/** The rules of a plan, one method each; what each says in words is {@link PlanRule}'s. */
public class PlanConstraints implements ConstraintProvider {

    @Override
    public Constraint[] defineConstraints(ConstraintFactory factory) {
        return new Constraint[] {
            suitableSession(factory),
            openGate(factory),
            inOrder(factory),
            resultStillCounts(factory),
            onePlaceAtATime(factory),
            roomInTheSession(factory),
            timeHeld(factory),
            promiseOf5Days(factory),
            promiseOf14Days(factory),
            endsInTime(factory),
            lateness(factory),
            toldAppointmentKept(factory),
            noIdleMinutes(factory)
        };
    }

    Constraint suitableSession(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .filter(appointment -> !appointment.stays()
                        && Fit.unsuitable(appointment.step(), appointment.at()).isPresent())
                .penalize(one(PlanRule.SUITABLE_SESSION))
                .asConstraint(PlanRule.SUITABLE_SESSION.name());
    }

    Constraint openGate(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .filter(appointment -> !appointment.stays()
                        && Fit.barred(appointment.step(), appointment.at()).isPresent())
                .penalize(one(PlanRule.OPEN_GATE))
                .asConstraint(PlanRule.OPEN_GATE.name());
    }

    Constraint inOrder(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .filter(appointment -> appointment.index() > 0)
                .join(
                        factory.forEachIncludingUnassigned(Appointment.class),
                        equal(Appointment::caseNumber),
                        equal(Appointment::previousIndex, Appointment::index))
                .filter((appointment, before) -> !(appointment.stays() && before.asKept(before.getSlot()))
                        && !before.placed()
                                .map(at -> Fit.inOrder(appointment.step(), appointment.at(), at))
                                .orElse(false))
                .penalize(one(PlanRule.IN_ORDER))
                .asConstraint(PlanRule.IN_ORDER.name());
    }

    Constraint resultStillCounts(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .filter(Appointment::last)
                .join(
                        factory.forEach(Appointment.class)
                                .filter(earlier -> earlier.step().countsDays().isPresent()),
                        equal(Appointment::caseNumber))
                .filter((last, earlier) ->
                        !(last.stays() && earlier.stays()) && !Fit.stillCounts(earlier.step(), earlier.at(), last.at()))
                .penalize(one(PlanRule.RESULT_STILL_COUNTS))
                .asConstraint(PlanRule.RESULT_STILL_COUNTS.name());
    }

    Constraint onePlaceAtATime(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .join(Appointment.class, equal(Appointment::patient), lessThan(Appointment::caseNumber))
                .filter((one, other) -> !(one.stays() && other.stays()) && !Fit.apart(one.at(), other.at()))
                .penalize(one(PlanRule.ONE_PLACE_AT_A_TIME))
                .asConstraint(PlanRule.ONE_PLACE_AT_A_TIME.name());
    }

    Constraint roomInTheSession(ConstraintFactory factory) {
        return load(factory)
                .filter((slot, expected, variance) -> expected > slot.session().minutes())
                .penalize(
                        one(PlanRule.ROOM_IN_THE_SESSION),
                        (slot, expected, variance) -> expected - slot.session().minutes())
                .asConstraint(PlanRule.ROOM_IN_THE_SESSION.name());
    }

    Constraint timeHeld(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .filter(appointment -> appointment.at().held() > 0 && !appointment.urgent())
                .groupBy(Appointment::at, sum(Appointment::expected), sum(Appointment::expectedUntold))
                .filter((slot, others, untold) -> others > slot.open() && untold > 0)
                .penalize(one(PlanRule.TIME_HELD), (slot, others, untold) -> Math.min(untold, others - slot.open()))
                .asConstraint(PlanRule.TIME_HELD.name());
    }

    Constraint promiseOf5Days(ConstraintFactory factory) {
        return late(factory, PlanRule.PROMISE_OF_5_DAYS);
    }

    Constraint promiseOf14Days(ConstraintFactory factory) {
        return late(factory, PlanRule.PROMISE_OF_14_DAYS);
    }

    Constraint endsInTime(ConstraintFactory factory) {
        return load(factory)
                .penalize(
                        one(PlanRule.ENDS_IN_TIME),
                        (slot, expected, variance) -> StepMinutes.overrun(
                                expected, variance, slot.session().minutes()))
                .asConstraint(PlanRule.ENDS_IN_TIME.name());
    }

    Constraint lateness(ConstraintFactory factory) {
        return late(factory, PlanRule.LATENESS);
    }

    Constraint toldAppointmentKept(ConstraintFactory factory) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .filter(Appointment::movesTold)
                .penalize(one(PlanRule.TOLD_APPOINTMENT_KEPT))
                .asConstraint(PlanRule.TOLD_APPOINTMENT_KEPT.name());
    }

    Constraint noIdleMinutes(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .penalize(
                        one(PlanRule.NO_IDLE_MINUTES),
                        appointment -> appointment.expected() * appointment.at().daysAhead())
                .asConstraint(PlanRule.NO_IDLE_MINUTES.name());
    }

    private Constraint late(ConstraintFactory factory, PlanRule rule) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .filter(appointment -> appointment.level() == rule.level())
                .penalize(one(rule), Appointment::latePoints)
                .asConstraint(rule.name());
    }

    /** Each session that holds anybody, with the expected minutes and the variance of its cases together. */
    private static TriConstraintStream<Slot, Long, Long> load(ConstraintFactory factory) {
        return factory.forEach(Appointment.class)
                .groupBy(Appointment::at, sum(Appointment::expected), sum(Appointment::variance));
    }

    private BendableScore one(PlanRule rule) {
        return rule.level() == Level.HARD ? hard() : soft(softLevel(rule.level()));
    }

    /** The place of {@code level} among those that come after what cannot be broken, from 0. */
    int softLevel(Level level) {
        return level.ordinal() - Timetable.HARD_LEVELS;
    }

    static BendableScore hard() {
        return BendableScore.ofHard(Timetable.HARD_LEVELS, Timetable.SOFT_LEVELS, 0, 1);
    }

    static BendableScore soft(int level) {
        return BendableScore.ofSoft(Timetable.HARD_LEVELS, Timetable.SOFT_LEVELS, level, 1);
    }
}
