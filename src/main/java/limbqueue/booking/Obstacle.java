package limbqueue.booking;

/**
 * What is in the way of a step in one session.
 *
 * @param rule the rule that would be broken, or that would speak more strongly
 * @param text the end of a sentence that begins with the session
 */
public record Obstacle(PlanRule rule, String text) {}
