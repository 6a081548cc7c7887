package limbqueue.triage.flag;

import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.grade.LegPicture;

/** A normal or unmeasurable ankle index in a leg whose arteries may be calcified. */
final class FalseReassuranceRule implements FlagRule {

    @Override
    public String code() {
        return "false-reassurance";
    }

    @Override
    public Outcome look(Case referral) {
        var history = referral.document().history();
        var calcifying = new Evidence()
                .when(history.diabetes(), "history.diabetes")
                .when(history.dialysis(), "history.dialysis");
        var suspects = referral.legsWith(leg -> unreliable(leg) && leg.symptoms());
        var evidence = new Evidence();
        for (var leg : suspects) {
            if (leg.threatening() || !calcifying.isEmpty()) {
                FlagEvidence.ankleIndex(leg, referral, evidence);
                FlagEvidence.symptom(leg, evidence);
                if (!leg.threatening()) {
                    evidence.addAll(calcifying.paths());
                }
            }
        }
        var unknown = new Evidence()
                .when(history.diabetes().isEmpty(), "history.diabetes")
                .when(history.dialysis().isEmpty(), "history.dialysis");
        if (evidence.isEmpty() && !suspects.isEmpty() && !unknown.isEmpty()) {
            return Outcome.cannotTell(unknown.paths());
        }
        return Outcome.onEvidence(
                "The ankle-brachial index is normal or cannot be measured, which calcified arteries can feign: rely on toe"
                        + " pressure or toe-brachial index.",
                evidence);
    }

    private static boolean unreliable(LegPicture leg) {
        return leg.facts()
                .figures()
                .abi()
                .map(abi -> abi.band() == AbiBand.NORMAL || abi.band() == AbiBand.NONCOMPRESSIBLE)
                .orElse(false);
    }
}
