package limbqueue.referral;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Tier;

/**
 * One referral in a list, triaged as of today.
 *
 * @param patient family and given name, as far as known
 * @param because the sentence that explains the tier
 * @param decidedTier the tier the physician decided, once decided
 * @param targetDate of the decided tier, or of the proposed one before the decision
 * @param openQuestions how many questions are open
 * @param askBy the earliest day by which one of them must be asked
 * @param problems how many values typed cannot be right
 * @param flags codes of the red flags raised
 */
public record ReferralLine(
        long id,
        String reference,
        ReferralState state,
        String patient,
        Optional<LocalDate> born,
        String referrer,
        LocalDate received,
        Tier proposedTier,
        Optional<Tier> decidedTier,
        Optional<LocalDate> targetDate,
        String because,
        int openQuestions,
        Optional<LocalDate> askBy,
        int problems,
        List<String> flags,
        Optional<Instant> submittedAt,
        String savedBy) {}
