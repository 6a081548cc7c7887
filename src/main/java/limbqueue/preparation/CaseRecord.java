package limbqueue.preparation;

import java.time.Instant;
import java.util.Optional;
import limbqueue.triage.plan.CaseFeatures;

/**
 * What became of a case.
 *
 * @param minutes in the room, from coming in to leaving it, 1 to 1440
 * @param access what was used, in words
 * @param note what went wrong, for a failure or a complication; else it may be empty
 * @param features what the time was expected to depend on; empty when no lesion was known
 */
public record CaseRecord(
        long referralId,
        int minutes,
        String access,
        CaseOutcome outcome,
        String note,
        Optional<CaseFeatures> features,
        String author,
        Instant at) {}
