package limbqueue.referral;

import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.TriageResult;

/**
 * A physician decided. Published within the transaction that did it.
 *
 * @param document the document decided on, as read
 * @param proposal the proposal decided on
 * @param policy the policy in force
 */
public record ReferralDecided(
        Referral referral, DecisionRecord decision, ReferralDocument document, TriageResult proposal, Policy policy) {}
