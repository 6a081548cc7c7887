package limbqueue.triage.flag;

import java.util.List;
import limbqueue.triage.finding.Case;
import limbqueue.triage.threshold.Limit;

/** The patient leaves the area before, or soon after, the target date. */
final class LeavesBeforeFollowUpRule implements FlagRule {

    @Override
    public String code() {
        return "leaves-before-follow-up";
    }

    @Override
    public Outcome look(Case referral) {
        var patient = referral.document().patient();
        if (patient.leavesArea().isEmpty() || referral.targetDate().isEmpty()) {
            return Outcome.silent();
        }
        var leaves = patient.leavesArea().get();
        var target = referral.targetDate().get();
        var backBefore = patient.returnsToArea()
                .map(returns -> !returns.isBefore(leaves) && !returns.isAfter(target))
                .orElse(false);
        return !backBefore && !leaves.isAfter(target.plusDays(referral.limits().whole(Limit.LEAVES_WITHIN)))
                ? Outcome.fires(
                        "The patient leaves the area before follow-up: settle who watches the puncture site, the drugs"
                                + " and the scan afterwards.",
                        List.of("patient.leavesArea"))
                : Outcome.silent();
    }
}
