package limbqueue.directory;

import java.util.List;

/** The languages that letters are written in, as whoever writes them knows them. */
public interface LetterLanguages {

    /**
     * A language.
     *
     * @param tag as in BCP 47: {@code en-GB}
     * @param name as its speakers call it
     */
    record LetterLanguage(String tag, String name) {}

    List<LetterLanguage> all();
}
