package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;

/** A foot infection with a response of the whole body. */
final class SystemicInfectionRule implements FlagRule {

    @Override
    public String code() {
        return "systemic-infection";
    }

    @Override
    public Outcome look(Case referral) {
        var evidence = new Evidence();
        referral.legsWith(leg -> leg.infection() == 3)
                .forEach(leg -> evidence.add(leg.facts().path("infection")));
        return Outcome.onEvidence("Foot infection with a response of the whole body: hospital today.", evidence);
    }
}
