package limbqueue.triage.flag;

import limbqueue.triage.ReferralDocument.Complication;
import limbqueue.triage.finding.Case;

/** A complication of an earlier procedure is on record. */
final class EarlierComplicationRule implements FlagRule {

    @Override
    public String code() {
        return "earlier-complication";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "An earlier procedure had a complication: plan for its return.",
                Case.entries(
                                "procedures",
                                referral.document().procedures(),
                                procedure -> procedure
                                        .complication()
                                        .map(complication -> complication != Complication.NONE)
                                        .orElse(false))
                        .stream()
                        .map(entry -> entry + ".complication"));
    }
}
