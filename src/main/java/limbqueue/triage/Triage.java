package limbqueue.triage;

import java.time.LocalDate;
import limbqueue.triage.rule.RuleBook;

/** Triage of one referral. */
public final class Triage {

    private Triage() {}

    /**
     * What is proposed for {@code document} on the day {@code asOf} under {@code policy} and the rule book that comes
     * with the product.
     *
     * @return the proposal; the same for the same arguments, always
     */
    public static TriageResult triage(ReferralDocument document, Policy policy, LocalDate asOf) {
        return triage(document, policy, RuleBook.shipped(), asOf);
    }

    /**
     * What was or would be proposed by {@code book}.
     *
     * @return the proposal; the same for the same arguments, always
     */
    public static TriageResult triage(ReferralDocument document, Policy policy, RuleBook book, LocalDate asOf) {
        return new Assessment(document, policy, book, asOf).result();
    }
}
