package limbqueue.referral;

import java.util.Map;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;

/** What a physician decides on a referral. */
public sealed interface Decision {

    /** The proposal is right. */
    record Approve() implements Decision {}

    /**
     * The proposal is changed.
     *
     * @param tier the tier decided, which may be the one proposed
     * @param categories Rutherford categories that differ from the proposed ones, by leg
     * @param reason why; never blank
     */
    record Change(Tier tier, Map<Side, Rutherford> categories, String reason) implements Decision {}

    /**
     * Something must be asked first.
     *
     * @param what what must be asked; never blank
     */
    record AskForInformation(String what) implements Decision {}

    /**
     * The referral goes back.
     *
     * @param reason what the referring doctor is told as the reason; never blank
     */
    record ReturnToReferrer(String reason) implements Decision {}

    /**
     * The patient goes to hospital at once.
     *
     * @param told who was told, and how; never blank
     */
    record SendToHospital(String told) implements Decision {}
}
