package limbqueue.access;

/** What was asked can't be done just now. The message says why and what to do, in words for the person who asked. */
public class NotPossibleException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    public NotPossibleException(String message) {
        super(message);
    }
}
