package limbqueue.referral;

/** What became of taking a decision back. */
public sealed interface TakeBackOutcome {

    /** The referral is before the physician again. */
    record TakenBack(Referral referral, DecisionRecord decision) implements TakeBackOutcome {}

    /** @param why why not, and what to do instead, as a sentence for the physician */
    record Refused(String why) implements TakeBackOutcome {}
}
