package limbqueue.letter;

import java.util.List;

/** What became of a correction by hand. */
public sealed interface CorrectionOutcome {

    /** The letter says it from now on. */
    record Corrected(CorrectableLetter now) implements CorrectionOutcome {}

    /**
     * Nothing is changed.
     *
     * @param why in words for the office: what cannot stand, and what to do
     */
    record NotRight(List<String> why) implements CorrectionOutcome {}

    /** The letter says it already. */
    record Unchanged() implements CorrectionOutcome {}

    /** Somebody else has corrected it since it was read. */
    record Overtaken(LetterCorrection theirs, CorrectableLetter now) implements CorrectionOutcome {}
}
