package limbqueue.triage;

/** The patient's left or right. */
public enum Side {
    LEFT,
    RIGHT;

    /** The other side. */
    public Side opposite() {
        return this == LEFT ? RIGHT : LEFT;
    }
}
