package limbqueue.letter;

import java.time.Instant;

/**
 * One correction of a letter by hand.
 *
 * @param version that the letter became, from 2
 * @param before its words as they could be corrected, in lines
 * @param after what they became
 */
public record LetterCorrection(int version, String author, Instant at, String before, String after) {}
