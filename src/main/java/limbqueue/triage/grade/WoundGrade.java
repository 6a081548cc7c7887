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

    public static int of(Answers answers) {
        var gangrene = answers.of(LegTopics.GANGRENE);
        if (gangrene == Gangrene.EXTENSIVE) {
            return 3;
        }
        var ulcer = answers.of(LegTopics.ULCER);
        if (ulcer == Ulcer.EXTENSIVE) {
            return 3;
        }
        if (gangrene == Gangrene.NONE && ulcer == Ulcer.NONE) {
            return 0;
        }
        if (answers.of(LegTopics.EXPOSES) == Exposes.CALCANEUS) {
            return 3;
        }
        var heel = answers.of(LegTopics.WOUND_SITE) == WoundSite.HEEL;
        if (heel && (gangrene == Gangrene.DIGITS || ulcer == Ulcer.DEEP)) {
            return 3;
        }
        if (gangrene == Gangrene.DIGITS || ulcer == Ulcer.DEEP || heel) {
            return 2;
        }
        return answers.of(LegTopics.EXPOSES) == Exposes.BONE_JOINT_OR_TENDON ? 2 : 1;
    }

    /** Whether there is an ulcer or gangrene at all. */
    public static boolean tissueLoss(Answers answers) {
        return answers.of(LegTopics.GANGRENE) != Gangrene.NONE || answers.of(LegTopics.ULCER) != Ulcer.NONE;
    }
}
