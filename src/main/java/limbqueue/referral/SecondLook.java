package limbqueue.referral;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;

/**
 * A tier that one physician would lower, shown to a second one before it counts.
 *
 * @param version the version of the referral at which it can be answered
 * @param account of the physician who would lower it
 * @param author that physician's display name
 * @param categories Rutherford categories that would differ from the proposal
 * @param reason in that physician's words
 * @param against what stands against it, one phrase each
 * @param answer of the second physician, once there is one
 */
public record SecondLook(
        long id,
        long referralId,
        int version,
        long account,
        String author,
        Instant at,
        Tier proposedTier,
        Tier tier,
        Map<Side, Rutherford> categories,
        String reason,
        List<String> against,
        Optional<Answer> answer) {

    /** @param words why not; empty where the second physician agreed */
    public record Answer(String author, Instant at, boolean agreed, String words) {}
}
