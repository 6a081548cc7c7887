package limbqueue.preparation;

/** How a procedure ended. */
public enum CaseOutcome {
    AS_PLANNED("done as planned"),
    OTHER_ACCESS("done through another access"),
    FAILED("failed"),
    COMPLICATION("complication");

    private final String words;

    CaseOutcome(String words) {
        this.words = words;
    }

    public String words() {
        return words;
    }
}
