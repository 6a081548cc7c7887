package limbqueue.triage.flag;

import java.util.stream.Stream;
import limbqueue.triage.TriageResult.AbiBand;
import limbqueue.triage.finding.Case;
import limbqueue.triage.grade.LegPicture;
import limbqueue.triage.threshold.Source;

/** A normal or unmeasurable ankle index in a leg whose arteries may be calcified. */
final class FalseReassuranceRule implements FlagRule {

    @Override
    public String code() {
        return "false-reassurance";
    }

    @Override
    public String source() {
        return Source.AHA_ABI_2012;
    }

    @Override
    public Outcome look(Case referral) {
        var history = referral.document().history();
        var calcified = history.diabetes().orElse(false) || history.dialysis().orElse(false);
        return Outcome.onEvidence(
                "The ankle-brachial index is normal or cannot be measured, which calcified arteries can feign: rely on toe"
                        + " pressure or toe-brachial index.",
                referral.legsWith(leg -> unreliable(leg) && (leg.threatening() || (calcified && leg.symptoms())))
                        .flatMap(leg ->
                                Stream.concat(FlagEvidence.ankleIndex(leg, referral), FlagEvidence.symptom(leg))));
    }

    private static boolean unreliable(LegPicture leg) {
        return leg.facts()
                .figures()
                .abi()
                .map(abi -> abi.band() == AbiBand.NORMAL || abi.band() == AbiBand.NONCOMPRESSIBLE)
                .orElse(false);
    }
}
