package limbqueue.referral;

/** The kinds of {@link Decision}. */
public enum DecisionKind {
    APPROVED,
    CHANGED,
    INFORMATION_ASKED,
    RETURNED,
    SENT_TO_HOSPITAL
}
