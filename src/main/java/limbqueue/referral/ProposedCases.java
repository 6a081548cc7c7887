package limbqueue.referral;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import limbqueue.document.Draft;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.ReferralQuery;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import limbqueue.triage.rule.RuleBook;
import org.springframework.stereotype.Component;

/** Referrals with what is proposed for them today, for the application itself; people ask {@link Referrals}. */
@Component
public class ProposedCases {

    private final ReferralQuery query;
    private final PolicyInForce policy;
    private final RuleBooks books;
    private final Clock clock;

    ProposedCases(ReferralQuery query, PolicyInForce policy, RuleBooks books, Clock clock) {
        this.query = query;
        this.policy = policy;
        this.books = books;
        this.clock = clock;
    }

    /** In the order of their ids. One that is not there is left out. */
    public List<ProposedCase> of(Collection<Long> ids) {
        var policyNow = policy.version().policy();
        var book = books.inForce();
        var today = LocalDate.now(clock);
        // Triage is pure, so that many are worked out by as many processors as there are.
        return query.these(ids).parallelStream()
                .map(row -> proposed(row, policyNow, book, today))
                .toList();
    }

    /** Every referral that is still to be decided, drafts too, as {@code policy} would propose on {@code asOf}. */
    public List<ProposedCase> open(Policy policy, LocalDate asOf) {
        var book = books.inForce();
        return query.open().parallelStream()
                .map(row -> proposed(row, policy, book, asOf))
                .toList();
    }

    private static ProposedCase proposed(ReferralQuery.Row row, Policy policy, RuleBook book, LocalDate today) {
        var document = Draft.of(row.referral().document()).read(today).document();
        var proposal = Triage.triage(document, policy, book, today);
        var standing = row.decision().filter(decision -> row.referral().state() == ReferralState.APPROVED);
        return new ProposedCase(
                row.referral(),
                document,
                proposal,
                standing.map(ReferralQuery.Standing::tier),
                standing.map(ReferralQuery.Standing::targetDate)
                        .orElse(proposal.urgency().targetDate()));
    }
}
