package limbqueue.practice;

/** What became of an attempt to save the practice. */
public sealed interface PracticeSaveOutcome {

    record Saved(Practice practice) implements PracticeSaveOutcome {}

    /**
     * Somebody else saved first; nothing was changed.
     *
     * @param theirs the practice as it stands
     */
    record Conflict(Practice theirs) implements PracticeSaveOutcome {}

    /**
     * It cannot be printed; nothing was changed.
     *
     * @param why in words: what is wrong, and what to do
     */
    record NotRight(String why) implements PracticeSaveOutcome {}
}
