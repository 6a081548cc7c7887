package limbqueue.samepatient;

/** What somebody said of two referrals. */
public enum Verdict {
    /** One person, two referrals. */
    SAME_PERSON,
    /** Two people, however alike. */
    TWO_PEOPLE,
    /** Nothing any more. */
    TAKEN_BACK
}
