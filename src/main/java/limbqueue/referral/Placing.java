package limbqueue.referral;

import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.RedFlag;

/**
 * Where a proposal puts a referral.
 *
 * @param targetDate empty for advice only
 * @param flags codes of the red flags, each once
 */
public record Placing(Tier tier, Optional<LocalDate> targetDate, List<String> flags) {

    public Placing {
        flags = List.copyOf(flags);
    }

    public static Placing of(TriageResult proposal) {
        return new Placing(
                proposal.urgency().tier(),
                proposal.urgency().targetDate(),
                proposal.redFlags().stream().map(RedFlag::code).distinct().toList());
    }

    /**
     * Whether tier, target date or red flags are others. The same day is today on every day, which moves nobody.
     */
    public boolean differsFrom(Placing other) {
        return tier != other.tier
                || (tier != Tier.SAME_DAY && !targetDate.equals(other.targetDate))
                || !new HashSet<>(flags).equals(new HashSet<>(other.flags));
    }
}
