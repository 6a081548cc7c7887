package limbqueue.letter.wording;

/**
 * A language that letters are written in.
 *
 * @param tag as in BCP 47: {@code en-GB}
 * @param name as its speakers call it
 */
public record Language(String tag, String name) {}
