package limbqueue.directory;

/** What became of a correction. */
public sealed interface CorrectOutcome {

    record Corrected(DirectoryEntry entry) implements CorrectOutcome {}

    /** Somebody else has changed the entry meanwhile, or merged it into another. */
    record Overtaken() implements CorrectOutcome {}

    /** @param why in words, and what to do */
    record NotRight(String why) implements CorrectOutcome {}
}
