package limbqueue.preparation;

/** What became of a step of preparation. */
public sealed interface PreparationOutcome {

    record Done() implements PreparationOutcome {}

    /** Somebody else was first, or the facts have changed: look again. Nothing was changed. */
    record Overtaken() implements PreparationOutcome {}

    /**
     * The step cannot be taken; nothing was changed.
     *
     * @param why what is missing and what to do, as a sentence
     */
    record Refused(String why) implements PreparationOutcome {}
}
