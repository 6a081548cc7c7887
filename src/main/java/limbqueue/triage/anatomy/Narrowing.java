package limbqueue.triage.anatomy;

/** How far a lesion closes its artery, in rising order of severity. */
enum Narrowing {
    /** Too little to count. */
    NONE,
    STENOSIS,
    OCCLUSION;

    boolean counts() {
        return this != NONE;
    }

    Narrowing orWorse(Narrowing other) {
        return compareTo(other) >= 0 ? this : other;
    }
}
