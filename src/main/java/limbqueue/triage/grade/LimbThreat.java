package limbqueue.triage.grade;

import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.question.Answers;

/**
 * Whether a leg is threatened by chronic ischaemia: rest pain for more than two weeks with poor pressures, or an ulcer
 * of two weeks or gangrene with WIfI ischaemia 1 or more. Acute ischaemia is another matter.
 *
 * <p>Source: gvg-2019. The ankle and index limits are confirmed for other guidelines and in memory for this one.
 */
public final class LimbThreat {

    private LimbThreat() {}

    public static boolean of(Answers answers) {
        if (AcuteClass.present(answers)) {
            return false;
        }
        if (answers.of(LegTopics.GANGRENE) != Gangrene.NONE) {
            return answers.of(LegTopics.SUPPLY_AT_REST).ischaemic() || restPainThreat(answers);
        }
        if (answers.of(LegTopics.ULCER) != Ulcer.NONE
                && answers.of(LegTopics.SUPPLY_AT_REST).ischaemic()
                && answers.of(LegTopics.ULCER_LASTING)) {
            return true;
        }
        return restPainThreat(answers);
    }

    private static boolean restPainThreat(Answers answers) {
        return answers.of(LegTopics.REST_PAIN)
                && answers.of(LegTopics.SUPPLY_AT_REST).poor()
                && answers.of(LegTopics.REST_PAIN_LASTING);
    }
}
