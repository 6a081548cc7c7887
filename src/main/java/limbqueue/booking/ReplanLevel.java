package limbqueue.booking;

/**
 * What a plan is judged by that takes the place of one that is kept, in strict order: nothing gained at a later level makes up for
 * anything lost at an earlier one.
 */
public enum ReplanLevel {
    HARD("An emergency has its minutes of a procedure room today, and whatever changes breaks no rule that cannot be"
            + " broken; what a person has put together and nobody moves is not judged anew."),
    PROMISES_OF_5_DAYS(PlanRule.PROMISE_OF_5_DAYS.sentence()),
    PROMISES_OF_14_DAYS(PlanRule.PROMISE_OF_14_DAYS.sentence()),
    TOLD_PATIENTS("The fewest patients who have been told of a place lose it."),
    MOVED("The fewest places change."),
    OVERRUN(PlanRule.ENDS_IN_TIME.sentence()),
    LATENESS(PlanRule.LATENESS.sentence()),
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
