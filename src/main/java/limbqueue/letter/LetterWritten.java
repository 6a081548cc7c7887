package limbqueue.letter;

import java.time.Instant;

/**
 * A letter was written. Published within the transaction of the step that it tells of.
 *
 * @param letterId its id
 * @param leavesFrom when it may leave: at once, or when the decision that it tells of can be taken back no more
 */
public record LetterWritten(long letterId, Instant leavesFrom) {}
