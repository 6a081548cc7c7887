package limbqueue.letter;

/** Knows whether a letter is being handed over at this moment; whoever sends letters says so. */
public interface LetterUnderway {

    boolean isUnderway(long letterId);
}
