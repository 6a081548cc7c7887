package limbqueue.file;

import java.io.Serial;

/** A file that cannot be used. The message is the sentence to the person who brought it. */
final class UnfitFile extends Exception {

    @Serial
    private static final long serialVersionUID = 1L;

    UnfitFile(String sentence) {
        super(sentence);
    }

    UnfitFile(String sentence, Throwable cause) {
        super(sentence, cause);
    }

    String sentence() {
        return String.valueOf(getMessage());
    }
}
