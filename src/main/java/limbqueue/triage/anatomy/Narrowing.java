package limbqueue.triage.anatomy;

/** How far a lesion closes its artery, in rising order of severity. */
public enum Narrowing {
    /** Too little to count. */
    NONE,
    STENOSIS,
    OCCLUSION;

    public boolean counts() {
        return this != NONE;
    }

    Narrowing orWorse(Narrowing other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
