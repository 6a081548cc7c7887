package limbqueue.database;

/** The application can't start, for a reason that the person at the console can remove. The message is one line. */
public class CannotStartException extends RuntimeException {

    private static final long serialVersionUID = 1L;

    public CannotStartException(String whatToDo) {
        super(whatToDo);
    }

    public CannotStartException(String whatToDo, Throwable cause) {
        super(whatToDo, cause);
    }
}
