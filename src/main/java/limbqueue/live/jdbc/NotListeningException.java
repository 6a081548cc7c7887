package limbqueue.live.jdbc;

/** The connection that listens is broken or cannot be made. */
public class NotListeningException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    NotListeningException(Throwable cause) {
        super("the database tells nothing at the moment", cause);
    }
}
