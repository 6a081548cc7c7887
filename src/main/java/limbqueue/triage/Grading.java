package limbqueue.triage;

import java.util.Optional;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.Fontaine;
import limbqueue.triage.TriageResult.Rutherford;

/**
 * Grades and tier of a referral as they are acted on, without what else is possible, flags, questions and work-up. Like
 * every result it proposes: a licensed clinician decides.
 *
 * @param tier the more urgent of the two legs' tiers
 */
public record Grading(Tier tier, OfLeg left, OfLeg right) {

    /**
     * @param rule the rule that calls for the tier, as reasons name it
     * @param wifi empty where the foot is gone
     */
    public record OfLeg(
            Tier tier,
            String rule,
            Rutherford rutherford,
            Fontaine fontaine,
            Answer chronicLimbThreatening,
            Optional<WifiGrades> wifi) {}

    /**
     * @param wound 0 to 3
     * @param ischaemia 0 to 3
     * @param infection 0 to 3
     * @param stage 1 to 4
     */
    public record WifiGrades(int wound, int ischaemia, int infection, int stage) {}

    public OfLeg of(Side side) {
        return side == Side.LEFT ? left : right;
    }
}
