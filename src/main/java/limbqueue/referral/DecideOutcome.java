package limbqueue.referral;

/** What became of an attempt to decide. */
public sealed interface DecideOutcome {

    record Decided(Referral referral, DecisionRecord decision) implements DecideOutcome {}

    /** The referral changed while the physician was reading: look again before deciding. */
    record Changed(Referral now) implements DecideOutcome {}

    /**
     * The decision cannot be taken like this; nothing was changed.
     *
     * @param why what is missing and what to do, as a sentence for the physician
     */
    record Refused(String why) implements DecideOutcome {}
}
