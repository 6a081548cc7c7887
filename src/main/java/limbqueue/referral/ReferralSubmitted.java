package limbqueue.referral;

/** A referral was put before the physician. Published within the transaction that did it. */
public record ReferralSubmitted(Referral referral) {}
