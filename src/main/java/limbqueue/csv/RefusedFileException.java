package limbqueue.csv;

/** The file as a whole cannot be read. The message says why, and what to do. */
public final class RefusedFileException extends Exception {

    private static final long serialVersionUID = 1L;

    private final String words;

    RefusedFileException(String words) {
        super(words);
        this.words = words;
    }

    /** Why, and what to do. */
    public String words() {
        return words;
    }
}
