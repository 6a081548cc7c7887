package limbqueue.triage.flag;

import limbqueue.triage.finding.Case;
import limbqueue.triage.finding.Evidence;
import limbqueue.triage.finding.IliacDisease;

/** Metal in spine, hip or pelvis over diseased iliac arteries. */
final class HardToSeeRule implements FlagRule {

    @Override
    public String code() {
        return "hard-to-see";
    }

    @Override
    public Outcome look(Case referral) {
        var history = referral.document().history();
        var hardware = new Evidence()
                .when(history.spinalHardware(), "history.spinalHardware")
                .when(history.hipOrPelvicHardware(), "history.hipOrPelvicHardware");
        var iliac = IliacDisease.evidence(referral);
        return hardware.isEmpty() || iliac.isEmpty()
                ? Outcome.silent()
                : Outcome.fires(
                        "Metal lies over diseased iliac arteries: one projection deceives, plan several obliques.",
                        hardware.addAll(iliac.paths()).paths());
    }
}
