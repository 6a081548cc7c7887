package limbqueue.letter;

/** Knows where letters are on their way out; whoever sends letters says so. */
public interface LetterUnderway {

    /** Whether the letter is being handed over at this moment. The answer holds until the transaction ends. */
    boolean isUnderway(long letterId);

    /** Whether it is, or leaves by itself when it is due. The answer holds until the transaction ends. */
    boolean mayLeave(long letterId);
}
