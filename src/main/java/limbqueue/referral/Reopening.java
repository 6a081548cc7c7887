package limbqueue.referral;

import java.time.Instant;
import java.util.List;

/**
 * A result changed what a decision was made on, so the referral is before the physician again.
 *
 * @param version the version that the referral became
 * @param decisionId the decision that holds no more
 * @param changes what changed, one sentence each
 * @param author display name of who typed the result in
 */
public record Reopening(
        long referralId, int version, long decisionId, List<String> changes, String author, Instant at) {}
