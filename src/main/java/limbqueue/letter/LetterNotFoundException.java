package limbqueue.letter;

/** There is no letter with this id. */
public class LetterNotFoundException extends RuntimeException {

    public LetterNotFoundException(long id) {
        super("There is no letter with the number " + id + ".");
    }
}
