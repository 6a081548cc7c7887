package limbqueue.preparation;

import java.time.Instant;

/**
 * What became of a case.
 *
 * @param minutes from puncture to closure, 1 to 1440
 * @param access what was used, in words
 * @param note what went wrong, for a failure or a complication; else it may be empty
 * @param document the referral's document as it stood, as JSON text
 */
public record CaseRecord(
        long referralId,
        int minutes,
        String access,
        CaseOutcome outcome,
        String note,
        String document,
        String author,
        Instant at) {}
