package limbqueue.booking.solver;

import ai.timefold.solver.core.api.score.stream.Constraint;
import ai.timefold.solver.core.api.score.stream.ConstraintFactory;
import limbqueue.booking.PlanRule;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.ReplanLevel;
import limbqueue.triage.Tier;

/**
 * The rules of a plan that takes the place of one that is kept: the same, and an emergency has its room, and as few as can be lose
 * the place that they have.
 */
public class ReplanConstraints extends PlanConstraints {

    /** The levels of told patients and of places that change are one level of the score: more than there are places. */
    static final long TOLD_PATIENT = 1_000_000;

    private static final int KEPT = 2;

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
            emergencyToday(factory),
            promiseOf5Days(factory),
            promiseOf14Days(factory),
            toldPatientKept(factory),
            placeKept(factory),
            endsInTime(factory),
            lateness(factory),
            noIdleMinutes(factory)
        };
    }

    @Override
    int softLevel(Level level) {
        return switch (level) {
            case HARD -> throw new IllegalArgumentException("what cannot be broken is at no such level");
            case PROMISES_OF_5_DAYS -> 0;
            case PROMISES_OF_14_DAYS -> 1;
            case TOLD_APPOINTMENTS -> KEPT;
            case OVERRUN -> 3;
            case LATENESS -> 4;
            case IDLE_MINUTES -> 5;
        };
    }

    /** Points of {@code level} in the score of {@code timetable}. */
    static long points(Timetable timetable, ReplanLevel level) {
        var score = timetable.getScore();
        if (score == null) {
            return 0;
        }
        return switch (level) {
            case HARD -> -score.hardOrSoftScore(0);
            case PROMISES_OF_5_DAYS -> -score.hardOrSoftScore(1);
            case PROMISES_OF_14_DAYS -> -score.hardOrSoftScore(2);
            case TOLD_PATIENTS -> -score.hardOrSoftScore(Timetable.HARD_LEVELS + KEPT) / TOLD_PATIENT;
            case MOVED -> -score.hardOrSoftScore(Timetable.HARD_LEVELS + KEPT) % TOLD_PATIENT;
            case OVERRUN -> -score.hardOrSoftScore(4);
            case LATENESS -> -score.hardOrSoftScore(5);
            case IDLE_MINUTES -> -score.hardOrSoftScore(6);
        };
    }

    @Override
    Constraint promiseOf5Days(ConstraintFactory factory) {
        return later(factory, PlanRule.PROMISE_OF_5_DAYS);
    }

    @Override
    Constraint promiseOf14Days(ConstraintFactory factory) {
        return later(factory, PlanRule.PROMISE_OF_14_DAYS);
    }

    /**
     * Only what becomes worse than it was: what the kept plan was late with already is no reason to call patients who have been
     * told, and is mended where it costs nobody's place, by the level of all lateness.
     */
    private Constraint later(ConstraintFactory factory, PlanRule rule) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .filter(appointment -> appointment.level() == rule.level())
                .penalize(soft(softLevel(rule.level())), Appointment::latePointsAdded)
                .asConstraint(rule.name());
    }

    /** Of all tiers. */
    @Override
    Constraint lateness(ConstraintFactory factory) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .penalize(soft(softLevel(Level.LATENESS)), Appointment::latePoints)
                .asConstraint(PlanRule.LATENESS.name());
    }

    /** The tier of the same day is queued for no session, but for an emergency. */
    Constraint emergencyToday(ConstraintFactory factory) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .filter(appointment -> appointment.waiting().tier() == Tier.SAME_DAY && appointment.getSlot() == null)
                .penalize(hard())
                .asConstraint("emergency today");
    }

    /** A patient who is called for one place can be told of another in the same call. */
    Constraint toldPatientKept(ConstraintFactory factory) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .filter(Appointment::movesTold)
                .groupBy(Appointment::patient)
                .penalize(soft(KEPT), _ -> TOLD_PATIENT)
                .asConstraint("told patient kept");
    }

    Constraint placeKept(ConstraintFactory factory) {
        return factory.forEachIncludingUnassigned(Appointment.class)
                .filter(Appointment::leavesKept)
                .penalize(soft(KEPT))
                .asConstraint("place kept");
    }
}
