package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;

/** A foot infection with a response of the whole body. */
final class SystemicInfectionRule implements FlagRule {

    @Override
    public String code() {
        return "systemic-infection";
    }

    @Override
    public Outcome look(Case referral) {
        return Outcome.onEvidence(
                "Foot infection with a response of the whole body: hospital today.",
                referral.legsWith(leg -> leg.infection() == 3)
                        .map(leg -> leg.facts().path("infection")));
    }
}
