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

    public static boolean of(LegFacts facts, Answers answers) {
        if (AcuteClass.present(facts, answers)) {
            return false;
        }
        if (answers.of(facts.gangrene()) != Gangrene.NONE) {
            return answers.of(facts.perfusion()).ischaemia() >= 1 || restPainThreat(facts, answers);
        }
        if (answers.of(facts.ulcer()) != Ulcer.NONE
                && answers.of(facts.perfusion()).ischaemia() >= 1
                && answers.of(facts.ulcerLasting())) {
            return true;
        }
        return restPainThreat(facts, answers);
    }

    private static boolean restPainThreat(LegFacts facts, Answers answers) {
        return answers.of(facts.restPain())
                && answers.of(facts.perfusion()).poorAtRest()
                && answers.of(facts.restPainLasting());
    }

    /** Whether there is a symptom that ischaemia could explain. */
    public static boolean symptom(LegFacts facts, Answers answers) {
        return WoundGrade.tissueLoss(facts, answers) || answers.of(facts.restPain());
    }
}
