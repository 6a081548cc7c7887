package limbqueue.sameday;

import java.time.Instant;

/**
 * A choice as it was made; never changed afterwards.
 *
 * @param version 1 for what the product comes with, then one more each time
 * @param who display name of the person who chose
 * @param reason why, in that person's words
 */
public record SameDayChoiceVersion(int version, SameDayChoice choice, String who, Instant at, String reason) {}
