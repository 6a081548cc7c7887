package limbqueue.referral;

/** What became of an attempt to decide. */
public sealed interface DecideOutcome {

    record Decided(Referral referral, DecisionRecord decision) implements DecideOutcome {}

    /** The referral changed while the physician was reading: look again before deciding. */
    record Changed(Referral now) implements DecideOutcome {}
}
