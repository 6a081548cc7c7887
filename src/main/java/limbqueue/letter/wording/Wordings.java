package limbqueue.letter.wording;

import limbqueue.letter.LetterKind;

/** The words by which letters are written. */
@FunctionalInterface
public interface Wordings {

    /**
     * The words of this kind of letter.
     *
     * @param tag of one of the languages that letters are written in
     */
    Template of(LetterKind kind, String tag);
}
