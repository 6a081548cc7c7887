package limbqueue.preparation;

/**
 * How long a case is expected to take in the room.
 *
 * @param median half of such cases take no longer, in minutes
 * @param ninety nine of ten take no longer
 * @param ownCases recorded cases of its kind that moved the numbers away from common practice
 */
public record ExpectedMinutes(int median, int ninety, int ownCases) {}
