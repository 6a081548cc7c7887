package limbqueue.referral;

import java.time.LocalDate;
import java.util.Optional;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;

/**
 * A referral with what is proposed for it today.
 *
 * @param document what could be read of the document
 * @param decidedTier the tier that a physician approved, while the approval stands
 * @param targetDate of the decided tier, or of the proposed one while none is decided
 */
public record ProposedCase(
        Referral referral,
        ReferralDocument document,
        TriageResult proposal,
        Optional<Tier> decidedTier,
        Optional<LocalDate> targetDate) {

    /** The tier that counts: the one decided, else the one proposed. */
    public Tier tier() {
        return decidedTier.orElse(proposal.urgency().tier());
    }
}
