package limbqueue.referral;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * One referral as it is held.
 *
 * @param version for optimistic locking: a change names the version it was made on
 * @param reference the practice's own number
 * @param document the document as JSON text, exactly as last saved
 * @param savedBy display name of who saved it last
 */
public record Referral(
        long id,
        int version,
        String reference,
        ReferralState state,
        LocalDate received,
        String document,
        String savedBy,
        Instant savedAt,
        Optional<Instant> submittedAt) {}
