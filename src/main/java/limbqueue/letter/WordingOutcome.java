package limbqueue.letter;

import java.util.List;
import limbqueue.letter.wording.WordingProblem;

/** What became of words that somebody wanted to publish. */
public sealed interface WordingOutcome {

    /** They count from now on. */
    record Published(LetterWording now) implements WordingOutcome {}

    /** They cannot stand: nothing is changed. */
    record NotRight(List<WordingProblem> problems) implements WordingOutcome {}

    /** They are what counts already. */
    record Unchanged() implements WordingOutcome {}

    /** Somebody else has published others since they were read. */
    record Overtaken(LetterWording theirs) implements WordingOutcome {}
}
