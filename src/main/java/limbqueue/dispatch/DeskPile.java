package limbqueue.dispatch;

/** Where a letter lies on the desk. */
public enum DeskPile {
    TO_CHECK("To check"),
    TO_SEND("To send"),
    FAILED("Failed"),
    BOUNCED("Bounced"),
    SENT("Sent");

    private final String words;

    DeskPile(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }
}
