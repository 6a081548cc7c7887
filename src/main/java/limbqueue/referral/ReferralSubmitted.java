package limbqueue.referral;

import limbqueue.triage.ReferralDocument;

/**
 * A referral was put before the physician. Published within the transaction that did it.
 *
 * @param document the document submitted, as read
 */
public record ReferralSubmitted(Referral referral, ReferralDocument document) {}
