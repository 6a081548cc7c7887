package limbqueue.triage;

import java.time.LocalDate;

/** Triage of one referral. */
public final class Triage {

    private Triage() {}

    /**
     * What is proposed for {@code document} on the day {@code asOf} under {@code policy}.
     *
     * @return the proposal; the same for the same arguments, always
     */
    public static TriageResult triage(ReferralDocument document, Policy policy, LocalDate asOf) {
        return new Assessment(document, policy, asOf).result();
    }
}
