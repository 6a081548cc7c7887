package limbqueue.referral;

/** Where a referral stands. */
public enum ReferralState {
    /** Being entered by the office. */
    DRAFT,
    /** Before the physician. */
    QUEUED,
    /** Sent back by the physician: something must be asked first. */
    INFORMATION_NEEDED,
    /** Approved, with or without changes. */
    APPROVED,
    /** Returned to the referring doctor. */
    RETURNED,
    /** Sent to hospital at once. */
    SENT_TO_HOSPITAL
}
