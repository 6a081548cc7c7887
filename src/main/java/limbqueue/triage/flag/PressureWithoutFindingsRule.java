package limbqueue.triage.flag;

import java.util.List;
import limbqueue.triage.ReferralDocument.AskedPriority;
import limbqueue.triage.ReferralDocument.ExpediteGrounds;
import limbqueue.triage.Tier;
import limbqueue.triage.finding.Case;

/** Haste is asked for on personal or travel grounds, and the findings do not support it. */
final class PressureWithoutFindingsRule implements FlagRule {

    @Override
    public String code() {
        return "pressure-without-findings";
    }

    @Override
    public Outcome look(Case referral) {
        var asked = referral.document().asked();
        var hurried = asked.expedite().orElse(false)
                || asked.priority()
                        .map(priority -> priority != AskedPriority.ROUTINE)
                        .orElse(false);
        if (!hurried || referral.tier().moreUrgentThan(Tier.WITHIN_6_WEEKS)) {
            return Outcome.silent();
        }
        if (asked.expediteGrounds().isEmpty()) {
            return Outcome.cannotTell("asked.expediteGrounds");
        }
        var grounds = asked.expediteGrounds().get();
        return grounds == ExpediteGrounds.PERSONAL || grounds == ExpediteGrounds.TRAVEL
                ? Outcome.fires(
                        "Faster handling is asked for on personal or travel grounds, and the findings do not support it:"
                                + " it moves nothing, and haste can hide an earlier attempt or complication.",
                        asked.expedite().orElse(false)
                                ? List.of("asked.expedite", "asked.expediteGrounds")
                                : List.of("asked.priority", "asked.expediteGrounds"))
                : Outcome.silent();
    }
}
