package limbqueue.booking;

/** A step on a referral's path that takes place in a session, in the order of the path. */
public enum StepKind {
    PRESSURES_AND_DUPLEX(SessionKind.VASCULAR_LABORATORY, "pressures and duplex"),
    CTA(SessionKind.CT, "CTA"),
    CLINIC(SessionKind.CLINIC, "clinic"),
    PROCEDURE(SessionKind.PROCEDURE_ROOM, "procedure");

    private final SessionKind session;
    private final String words;

    StepKind(SessionKind session, String words) {
        this.session = session;
        this.words = words;
    }

    /** The kind of session in which it takes place. */
    public SessionKind session() {
        return session;
    }

    /** What it is called within a sentence. */
    public String words() {
        return words;
    }
}
