package limbqueue.referral;

import java.util.Optional;

/** What became of an attempt to decide. */
public sealed interface DecideOutcome {

    record Decided(Referral referral, DecisionRecord decision) implements DecideOutcome {}

    /**
     * The referral changed while the physician was reading: look again before deciding.
     *
     * @param decided what somebody else decided meanwhile; empty if the referral was changed and not decided
     */
    record Changed(Referral now, Optional<DecisionRecord> decided) implements DecideOutcome {}

    /** The tier would be lowered: it waits for a second physician, and the proposal stands until that one agrees. */
    record AwaitsSecondLook(Referral referral, SecondLook look) implements DecideOutcome {}

    /**
     * The decision cannot be taken like this; nothing was changed.
     *
     * @param why what is missing and what to do, as a sentence for the physician
     */
    record Refused(String why) implements DecideOutcome {}
}
