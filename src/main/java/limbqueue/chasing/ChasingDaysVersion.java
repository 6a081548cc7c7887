package limbqueue.chasing;

import java.time.Instant;

/**
 * Days as they were set; never changed afterwards.
 *
 * @param version 1 for those that the product comes with, then one more each time
 * @param who display name of the person who set them
 * @param reason why, in that person's words
 */
public record ChasingDaysVersion(int version, ChasingDays days, String who, Instant at, String reason) {}
