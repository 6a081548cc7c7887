package limbqueue.access;

/** What a person may do. */
public enum Role {
    COORDINATOR("coordinator"),
    PHYSICIAN("physician"),
    MANAGER("manager");

    /** Names for the annotations that check a role. */
    public static final String IS_COORDINATOR = "COORDINATOR";

    public static final String IS_PHYSICIAN = "PHYSICIAN";
    public static final String IS_MANAGER = "MANAGER";

    private final String word;

    Role(String word) {
        this.word = word;
    }

    /** The role as a person would say it, in lower case. */
    public String word() {
        return word;
    }
}
