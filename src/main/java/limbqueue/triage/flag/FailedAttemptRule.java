package limbqueue.triage.flag;

import limbqueue.triage.ReferralDocument;
import limbqueue.triage.ReferralDocument.Procedure;
import limbqueue.triage.finding.Case;

/** An earlier procedure was incomplete or failed. */
final class FailedAttemptRule implements FlagRule {

    @Override
    public String code() {
        return "failed-attempt";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "An earlier procedure was incomplete or failed: plan a longer slot, another access and an experienced"
                        + " operator.",
                Case.entries("procedures", referral.document().procedures(), FailedAttemptRule::failed).stream()
                        .map(entry -> entry + ".outcome"));
    }

    static boolean failed(Procedure procedure) {
        return procedure
                .outcome()
                .map(outcome ->
                        outcome == ReferralDocument.Outcome.INCOMPLETE || outcome == ReferralDocument.Outcome.FAILED)
                .orElse(false);
    }
}
