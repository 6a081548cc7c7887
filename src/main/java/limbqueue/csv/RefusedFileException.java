package limbqueue.csv;

/** The file as a whole cannot be read. The message says why, and what to do. */
public final class RefusedFileException extends Exception {

    private static final long serialVersionUID = 1L;

    RefusedFileException(String message) {
        super(message);
    }
}
