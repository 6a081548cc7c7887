package limbqueue.booking;

/**
 * What a plan is judged by that takes the place of one that is kept, in strict order: nothing gained at a later level makes up for
 * anything lost at an earlier one.
 */
public enum ReplanLevel {
    HARD("An emergency has its minutes of a procedure room today, and whatever changes breaks no rule that cannot be"
            + " broken; what a person has put together and nobody moves is not judged anew."),
    PROMISES_OF_5_DAYS(
            "Nobody of the same day or of 5 days comes later past the promised date than in the plan that is kept."),
    PROMISES_OF_14_DAYS("Nobody of 14 days comes later past the promised date than in the plan that is kept."),
    TOLD_PATIENTS("The fewest patients who have been told of a place lose it."),
    MOVED("The fewest places change."),
    OVERRUN(PlanRule.ENDS_IN_TIME.sentence()),
    LATENESS("All who wait are late by as little as can be, a broken promise counting most."),
    IDLE_MINUTES(PlanRule.NO_IDLE_MINUTES.sentence());

    private final String sentence;

    ReplanLevel(String sentence) {
        this.sentence = sentence;
    }

    /** The level as whoever reads a plan is told it. */
    public String sentence() {
        return sentence;
    }
}
