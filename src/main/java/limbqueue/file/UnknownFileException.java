package limbqueue.file;

import java.io.Serial;

/** There is no file with this id. */
public final class UnknownFileException extends RuntimeException {

    @Serial
    private static final long serialVersionUID = 1L;

    UnknownFileException(long id) {
        super("There is no file " + id + ".");
    }
}
