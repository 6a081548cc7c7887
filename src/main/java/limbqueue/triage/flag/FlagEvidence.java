package limbqueue.triage.flag;

import limbqueue.triage.ReferralDocument.Gangrene;
import limbqueue.triage.ReferralDocument.Ulcer;
import limbqueue.triage.TriageResult.IndexOrigin;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.LegPicture;

/** The fields that several flags rest on. */
final class FlagEvidence {

    private FlagEvidence() {}

    /** Adds rest pain, ulcer, gangrene of a leg, as far as they are there. */
    static void threat(LegPicture leg, Evidence evidence) {
        var facts = leg.facts();
        evidence.when(leg.restPain(), facts.path("restPain.present"))
                .when(leg.ulcer() != Ulcer.NONE, facts.path("wound.ulcer"))
                .when(leg.gangrene() != Gangrene.NONE, facts.path("wound.gangrene"));
    }

    /** Adds the complaints of a leg, as far as they are there. */
    static void symptom(LegPicture leg, Evidence evidence) {
        var facts = leg.facts();
        threat(leg, evidence);
        evidence.when(leg.claudication(), facts.path("claudication.present"))
                .when(leg.acute(), facts.path("acute"))
                .when(leg.infection() > 0, facts.path("infection"));
    }

    /** Adds the fields from which the ankle-brachial index of a leg came. */
    static void ankleIndex(LegPicture leg, Case referral, Evidence evidence) {
        var facts = leg.facts();
        if (facts.figures().abi().map(abi -> abi.from() == IndexOrigin.REPORTED).orElse(false)) {
            evidence.add(facts.path("abi"));
            return;
        }
        var pressures = leg.leg().pressures();
        var arms = referral.document().armPressures();
        evidence.when(pressures.dorsalisPedis().isPresent(), facts.path("pressures.dorsalisPedis"))
                .when(pressures.posteriorTibial().isPresent(), facts.path("pressures.posteriorTibial"))
                .when(arms.left().isPresent(), "armPressures.left")
                .when(arms.right().isPresent(), "armPressures.right");
    }
}
