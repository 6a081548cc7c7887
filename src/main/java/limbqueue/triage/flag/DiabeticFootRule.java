package limbqueue.triage.flag;

import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.Source;

/** In diabetes, an ulcer with fever, ischaemia or deep infection, or any gangrene. */
final class DiabeticFootRule implements FlagRule {

    @Override
    public String code() {
        return "diabetic-foot-emergency";
    }

    @Override
    public String source() {
        return Source.NICE_NG19;
    }

    @Override
    public Outcome look(Case referral) {
        if (!referral.document().history().diabetes().orElse(false)) {
            return Outcome.silent();
        }
        return Outcome.onEvidence(
                "Diabetic foot emergency: call the hospital's foot service today, whatever the place in the queue.",
                referral.legsWith(leg -> leg.gangrene() != Gangrene.NONE
                                || (leg.ulcer() != Ulcer.NONE
                                        && (feverish(leg, referral)
                                                || leg.perfusion().ischaemia() >= 1
                                                || leg.leg().infection().deep().orElse(false))))
                        .flatMap(FlagEvidence::threat));
    }

    private static boolean feverish(LegPicture leg, Case referral) {
        return leg.leg()
                .infection()
                .temperatureC()
                .map(degrees -> degrees.value() > referral.limits().of(Limit.SYSTEMIC_TEMPERATURE_MORE_THAN))
                .orElse(false);
    }
}
