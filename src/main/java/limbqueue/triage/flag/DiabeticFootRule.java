package limbqueue.triage.flag;

import java.util.Optional;
import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.ReferralDocument.WoundSite;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Limit;

/** In diabetes, a foot ulcer with fever, sepsis or ischaemia, a deep infection, or any gangrene. */
final class DiabeticFootRule implements FlagRule {

    @Override
    public String code() {
        return "diabetic-foot-emergency";
    }

    @Override
    public Outcome look(Case referral) {
        var evidence = new Evidence();
        referral.legsWith(leg -> true).forEach(leg -> look(leg, referral, evidence));
        var diabetes = referral.document().history().diabetes();
        if (evidence.isEmpty() || diabetes.equals(Optional.of(false))) {
            return Outcome.silent();
        }
        return diabetes.isEmpty()
                ? Outcome.cannotTell("history.diabetes")
                : Outcome.fires(
                        "Diabetic foot emergency: call the hospital's foot service today, whatever the place in the"
                                + " queue.",
                        new Evidence()
                                .add("history.diabetes")
                                .addAll(evidence.paths())
                                .paths());
    }

    /** Gangrene or deep infection, with an ulcer or without; an ulcer of the foot with fever, sepsis or ischaemia. */
    private static void look(LegPicture leg, Case referral, Evidence evidence) {
        var ulcer = leg.ulcer() != Ulcer.NONE && !leg.leg().wound().site().equals(Optional.of(WoundSite.LEG));
        var fever = ulcer && feverish(leg, referral);
        var septic = ulcer && leg.infection() == 3;
        var ischaemic = ulcer && leg.perfusion().ischaemia() >= 1;
        evidence.when(leg.gangrene() != Gangrene.NONE, leg.facts().path("wound.gangrene"))
                .when(leg.leg().infection().deep(), leg.facts().path("infection.deep"))
                .when(fever || septic || ischaemic, leg.facts().path("wound.ulcer"))
                .when(fever, leg.facts().path("infection.temperatureC"))
                .when(septic, leg.facts().path("infection"))
                .when(ischaemic, leg.facts().path("pressures"));
    }

    private static boolean feverish(LegPicture leg, Case referral) {
        return leg.leg()
                .infection()
                .temperatureC()
                .map(degrees -> degrees.value() > referral.limits().of(Limit.SYSTEMIC_TEMPERATURE_MORE_THAN))
                .orElse(false);
    }
}
