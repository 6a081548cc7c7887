package limbqueue.booking;

/**
 * What is in the way of a step in one session.
 *
 * @param rule the rule that would be broken, or that would speak more strongly
 * @param text the end of a sentence that begins with the session
 * @param together the end of a sentence that begins with several sessions in which the same is in the way
 */
public record Obstacle(PlanRule rule, String text, String together) {

    /** What is said of several sessions as of one. */
    public Obstacle(PlanRule rule, String text) {
        this(rule, text, text);
    }
}
