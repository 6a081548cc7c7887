package limbqueue.triage.workup;

import java.util.Optional;
import limbqueue.triage.ReferralDocument.Smoking;
import limbqueue.triage.Tier;
import limbqueue.triage.finding.Substances;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.question.Sentence;
import limbqueue.triage.threshold.Limit;

/** What every patient with narrowed arteries is offered, procedure or not. */
final class LastingCare {

    private LastingCare() {}

    static void propose(Occasion on, Sheet sheet) {
        if (exerciseFirst(on)
                && on.history().exerciseProgrammeWeeks().orElse(0.0)
                        < on.limits().of(Limit.EXERCISE_PROGRAMME_WEEKS)) {
            sheet.need(
                    Item.EXERCISE_THERAPY,
                    Sentence.of(
                            "Supervised exercise for %.0f weeks", on.limits().of(Limit.EXERCISE_PROGRAMME_WEEKS)),
                    "Exercise comes before an elective procedure for claudication.");
        }
        if (!on.anyLeg(LegPicture::symptoms)) {
            return;
        }
        if (!on.history().antiplatelet().orElse(false) && !on.takes(Substances::isAntiplatelet)) {
            sheet.need(Item.ANTIPLATELET, "Consider an antiplatelet", "None is on record.");
        }
        if (!on.history().statin().orElse(false) && !on.takes(Substances::isStatin)) {
            sheet.need(Item.STATIN, "Consider a statin", "None is on record.");
        }
        if (on.history().smoking().equals(Optional.of(Smoking.CURRENT))) {
            sheet.need(Item.SMOKING, "Offer help to stop smoking", "The patient smokes.");
        }
    }

    /** Claudication that is elective, or for which no procedure is proposed. */
    static boolean exerciseFirst(Occasion on) {
        var tier = on.referral().tier();
        return (tier == Tier.WITHIN_18_WEEKS || tier == Tier.ADVICE_ONLY) && on.anyLeg(LegPicture::claudication);
    }
}
