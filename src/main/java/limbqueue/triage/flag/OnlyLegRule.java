package limbqueue.triage.flag;

import java.util.List;
import limbqueue.triage.finding.Case;

/** The opposite leg is amputated above the ankle. */
final class OnlyLegRule implements FlagRule {

    @Override
    public String code() {
        return "only-leg";
    }

    @Override
    public Outcome look(Case referral) {
        var gone = referral.legsWith(leg -> leg.facts().footGone());
        return gone.size() == 1
                ? Outcome.fires(
                        "This is the only leg: the threshold to act is lower.",
                        List.of(gone.get(0).facts().path("amputation")))
                : Outcome.silent();
    }
}
