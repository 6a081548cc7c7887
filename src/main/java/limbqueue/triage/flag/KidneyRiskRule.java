package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
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
        var evidence = new Evidence();
        low.ifPresent(kidney -> evidence.add(kidney.evidence()));
        return Outcome.onEvidence(
                "Low kidney function: contrast needs thought, and protection is considered by local protocol.",
                evidence.when(referral.document().history().dialysis(), "history.dialysis"));
    }
}
