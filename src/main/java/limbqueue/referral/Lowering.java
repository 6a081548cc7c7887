package limbqueue.referral;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import limbqueue.practice.SecondLook;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Answer;
import limbqueue.triage.TriageResult.RedFlag;
import limbqueue.triage.TriageResult.RutherfordScale;

/**
 * What stands against a tier less urgent than the one proposed.
 *
 * @param flags red flags, one phrase each
 * @param threats legs whose grade threatens them, one phrase each
 */
record Lowering(List<String> flags, List<String> threats) {

    /** Nothing stands against a tier that is not lowered. */
    static Lowering of(Tier tier, TriageResult proposal) {
        if (!proposal.urgency().tier().moreUrgentThan(tier)) {
            return new Lowering(List.of(), List.of());
        }
        var flags = proposal.redFlags().stream()
                .map(RedFlag::code)
                .distinct()
                .map(code -> "red flag, " + code.replace('-', ' '))
                .toList();
        var threats = new ArrayList<String>();
        for (var side : Side.values()) {
            var leg = proposal.legs().of(side);
            if (leg.chronicLimbThreatening() == Answer.YES
                    || leg.rutherford().category().scale() == RutherfordScale.ACUTE) {
                threats.add("the " + side.name().toLowerCase(Locale.ROOT) + " leg is threatened");
            }
        }
        return new Lowering(flags, List.copyOf(threats));
    }

    boolean stands() {
        return !flags.isEmpty() || !threats.isEmpty();
    }

    /** What of it a second physician looks at. */
    List<String> shown(SecondLook choice) {
        var shown = new ArrayList<String>();
        if (choice.loweredAgainstRedFlag()) {
            shown.addAll(flags);
        }
        if (choice.loweredBelowLimbThreat()) {
            shown.addAll(threats);
        }
        return List.copyOf(shown);
    }
}
