package limbqueue.referral;

import java.time.LocalDate;

/** What comes out when the proposal of a decision is worked out again. */
public sealed interface Recomputed {

    /**
     * The same, to the byte.
     *
     * @param ruleBook id of the rule book of its day
     * @param policy id of the policy of its day
     */
    record Same(String ruleBook, String policy, LocalDate asOf) implements Recomputed {}

    /** @param proposal what comes out now, as JSON text */
    record Different(String ruleBook, String policy, LocalDate asOf, String proposal) implements Recomputed {}

    /** @param why in words for the physician */
    record NotPossible(String why) implements Recomputed {}
}
