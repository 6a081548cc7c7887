package limbqueue.preparation;

import java.time.Instant;

/**
 * An item of the work-up that somebody has touched.
 *
 * @param code as the work-up names it
 * @param version for optimistic locking, from 1
 * @param what what the item was called when it was last touched
 * @param author display name of who put it where it stands
 */
public record TrackedItem(
        long referralId, String code, int version, String what, Standing standing, String author, Instant at) {}
