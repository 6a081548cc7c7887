package limbqueue.file;

/** What became of a file that somebody brought. */
public sealed interface Received {

    /**
     * It is sound and may be kept.
     *
     * @param letter its text, or why there is none
     */
    record Sound(DroppedFile file, Extracted letter) implements Received {}

    /** @param sentence what is wrong and what to do, to the person who brought it */
    record Refused(String sentence) implements Received {}
}
