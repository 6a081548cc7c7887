package limbqueue.triage.flag;

import java.util.stream.Stream;
import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.KidneyFunction;
import limbqueue.triage.threshold.Limit;

/** Kidney function so low that contrast needs thought. */
final class KidneyRiskRule implements FlagRule {

    @Override
    public String code() {
        return "kidney-risk";
    }

    @Override
    public Outcome look(Case referral) {
        var low = KidneyFunction.latest(referral.document(), referral.asOf())
                .filter(kidney -> kidney.egfr() < referral.limits().of(Limit.KIDNEY_RISK_EGFR_LESS_THAN));
        var dialysis = referral.document().history().dialysis().orElse(false);
        return Outcome.onEvidence(
                "Low kidney function: contrast needs thought, and protection is considered by local protocol.",
                Stream.concat(
                        low.map(kidney -> kidney.evidence()).stream(),
                        dialysis ? Stream.of("history.dialysis") : Stream.empty()));
    }
}
