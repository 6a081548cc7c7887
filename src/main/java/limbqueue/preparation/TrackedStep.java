package limbqueue.preparation;

import java.time.Instant;

/**
 * A state that an item was in.
 *
 * @param state its name, as {@code ASKED}
 * @param details what was written beside it, with dates as they are printed in ISO 8601
 */
public record TrackedStep(String code, int version, String state, String details, String author, Instant at) {}
