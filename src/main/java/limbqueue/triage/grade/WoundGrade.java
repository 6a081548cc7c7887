package limbqueue.triage.grade;

import limbqueue.triage.ReferralDocument.Exposes;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.question.Answers;

/**
 * WIfI wound grade, 0 to 3.
 *
 * <p>Source: wifi-2014, wound table. Gangrene of the heel counts as full-thickness heel necrosis.
 */
public final class WoundGrade {

    private WoundGrade() {}

    public static int of(LegFacts facts, Answers answers) {
        var gangrene = answers.of(facts.gangrene());
        if (gangrene == Gangrene.EXTENSIVE) {
            return 3;
        }
        var ulcer = answers.of(facts.ulcer());
        if (ulcer == Ulcer.EXTENSIVE) {
            return 3;
        }
        if (gangrene == Gangrene.NONE && ulcer == Ulcer.NONE) {
            return 0;
        }
        if (answers.of(facts.exposes()) == Exposes.CALCANEUS) {
            return 3;
        }
        var heel = answers.of(facts.woundSite()) == WoundSite.HEEL;
        if (heel && (gangrene == Gangrene.DIGITS || ulcer == Ulcer.DEEP)) {
            return 3;
        }
        if (gangrene == Gangrene.DIGITS || ulcer == Ulcer.DEEP || heel) {
            return 2;
        }
        return answers.of(facts.exposes()) == Exposes.BONE_JOINT_OR_TENDON ? 2 : 1;
    }

    /** Whether there is an ulcer or gangrene at all. */
    public static boolean tissueLoss(LegFacts facts, Answers answers) {
        return answers.of(facts.gangrene()) != Gangrene.NONE || answers.of(facts.ulcer()) != Ulcer.NONE;
    }
}
