package limbqueue.preparation;

import java.time.Instant;

/**
 * A physician goes ahead although a case is not ready.
 *
 * @param facts for what exactly it was given
 * @param reason the physician's words; never blank
 * @param author display name of the physician
 */
public record ReadinessOverride(long referralId, String facts, String reason, String author, Instant at) {}
