package limbqueue.access;

/** What a person may do. */
public enum Role {
    COORDINATOR,
    PHYSICIAN,
    MANAGER;

    /** Names for the annotations that check a role. */
    public static final String IS_COORDINATOR = "COORDINATOR";

    public static final String IS_PHYSICIAN = "PHYSICIAN";
    public static final String IS_MANAGER = "MANAGER";
}
