package limbqueue.worklist;

/** The lists, in the order in which the office works them off. A referral may be in several, each with a step of its own. */
public enum WorkList {
    /** Drafts, with what is missing. */
    TO_COMPLETE,
    /** Patients whose leg is threatened and who are called today. */
    TO_CALL,
    /** Asked of others and not come yet; what is chased today first. */
    WAITING,
    /** Before the physician. */
    PHYSICIAN,
    /** Approved without a date. */
    TO_BOOK,
    /** Approved, and something must be had or confirmed before the case. */
    WORK_UP,
    /** The target date has passed, or will soon. */
    LATE,
    /** Letters that came back or could not be sent: nobody has been told what they say. */
    LETTERS
}
