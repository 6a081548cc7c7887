package limbqueue.booking;

/** What a session is for. */
public enum SessionKind {
    CLINIC("clinic"),
    VASCULAR_LABORATORY("vascular laboratory"),
    CT("CT"),
    PROCEDURE_ROOM("procedure room");

    private final String words;

    SessionKind(String words) {
        this.words = words;
    }

    /** What it is called within a sentence. */
    public String words() {
        return words;
    }
}
