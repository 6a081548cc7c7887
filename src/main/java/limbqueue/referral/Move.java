package limbqueue.referral;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;

/**
 * What is proposed for a referral became something else.
 *
 * @param author display name of who entered the result; empty where nobody did anything
 * @param asOf the day of the new proposal
 * @param policy id of the policy of the new proposal
 */
public record Move(
        long id,
        long referralId,
        Cause cause,
        Optional<String> author,
        LocalDate asOf,
        String policy,
        Placing before,
        Placing after,
        Instant at) {

    /** Why, in the order in which causes that come together are told apart. */
    public enum Cause {
        /** Another version of the product brought other rules. */
        RULE_BOOK,
        /** A day passed. */
        DAY,
        /** Another policy counts. */
        POLICY,
        /** Something was entered. */
        RESULT
    }
}
