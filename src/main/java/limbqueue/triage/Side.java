package limbqueue.triage;

/** The patient's left or right. */
public enum Side {
    LEFT("left"),
    RIGHT("right");

    private final String path;
    private final String leg;

    Side(String word) {
        this.path = "legs." + word;
        this.leg = word + " leg";
    }

    /** Path of the leg in a referral: {@code legs.left} or {@code legs.right}. */
    public String path() {
        return path;
    }

    /** {@code left leg} or {@code right leg}. */
    public String leg() {
        return leg;
    }

    /** The other side. */
    public Side opposite() {
        return this == LEFT ? RIGHT : LEFT;
    }
}
