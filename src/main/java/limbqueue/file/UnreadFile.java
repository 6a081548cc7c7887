package limbqueue.file;

import java.io.Serial;

/** A sound file whose text cannot be read here. The message is the sentence to the person who brought it. */
final class UnreadFile extends Exception {

    @Serial
    private static final long serialVersionUID = 1L;

    private final FileType type;

    UnreadFile(String sentence, FileType type) {
        super(sentence);
        this.type = type;
    }

    String sentence() {
        return String.valueOf(getMessage());
    }

    FileType type() {
        return type;
    }
}
