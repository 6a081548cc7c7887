package limbqueue.referral;

/** What became of answering a second look. */
public sealed interface SecondLookOutcome {

    /** The lowered tier counts from now on. */
    record Agreed(Referral referral, DecisionRecord decision) implements SecondLookOutcome {}

    /** The proposal stands, and the referral is before the physicians as it was. */
    record NotAgreed(Referral referral) implements SecondLookOutcome {}

    /** @param why why not, and what to do instead, as a sentence for the physician */
    record Refused(String why) implements SecondLookOutcome {}
}
