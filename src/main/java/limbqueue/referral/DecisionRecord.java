package limbqueue.referral;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.Optional;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;

/**
 * A decision as it was made; never changed afterwards.
 *
 * @param author display name of the physician
 * @param policy id of the policy in force
 * @param ruleBook id of the rule book in force; empty for a decision made before rule books were kept
 * @param asOf the day for which triage was run
 * @param document the exact document decided on, as JSON text
 * @param proposal the exact proposal decided on, as JSON text
 * @param tier the tier decided
 * @param targetDate the target date decided; empty for advice only
 * @param categories Rutherford categories decided where they differ from the proposal
 * @param reason the words given; empty for a plain approval
 */
public record DecisionRecord(
        long id,
        long referralId,
        DecisionKind kind,
        String author,
        Instant at,
        String policy,
        Optional<String> ruleBook,
        LocalDate asOf,
        String document,
        String proposal,
        Tier proposedTier,
        Tier tier,
        Optional<LocalDate> targetDate,
        Map<Side, Rutherford> categories,
        String reason) {

    /** How long a decision can be taken back, and how long its letter waits (the product's choice, no source). */
    public static final Duration FINAL_AFTER = Duration.ofMinutes(10);

    /** From when on it cannot be taken back any more. */
    public Instant finalFrom() {
        return at.plus(FINAL_AFTER);
    }
}
