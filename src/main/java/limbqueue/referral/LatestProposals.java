package limbqueue.referral;

import java.time.Clock;
import java.time.LocalDate;
import limbqueue.document.Draft;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.LatestProposalStore;
import limbqueue.referral.jdbc.LatestProposalStore.Unproposed;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.Firings;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Keeps which rules the latest proposal of each referral rests on: written when a referral is put before the physician,
 * saved after that, and decided. One row a referral, with the ids of its rules. Counting 100,000 such rows from end to end
 * took about a second, so the database keeps the count of each rule beside them, and changes only the counts of rules that
 * a new proposal adds or drops: saving the same again touches none, and reading the counts does not grow with the
 * referrals ({@code RuleFiringsIT}).
 */
@Component
class LatestProposals {

    /** Rows of one transaction when what came before this table is caught up with. */
    private static final int BATCH = 500;

    private final LatestProposalStore store;
    private final RuleBooks books;
    private final Clock clock;

    LatestProposals(LatestProposalStore store, RuleBooks books, Clock clock) {
        this.store = store;
        this.books = books;
        this.clock = clock;
    }

    void keep(long referral, TriageResult proposal) {
        store.keep(
                referral,
                proposal.asOf(),
                proposal.policy(),
                proposal.ruleBook(),
                Firings.of(proposal),
                proposal.urgency().tier());
    }

    /**
     * Triages up to {@value #BATCH} referrals of which no proposal is kept, decided ones as of the day of their decision, and
     * keeps it.
     *
     * @return how many there were
     */
    @Transactional
    public int catchUp(Policy policy) {
        books.keep();
        var unproposed = store.without(BATCH);
        unproposed.forEach(referral -> keep(referral.id(), propose(referral, policy)));
        return unproposed.size();
    }

    private TriageResult propose(Unproposed referral, Policy policy) {
        var asOf = referral.asOf().orElseGet(() -> LocalDate.now(clock));
        return Triage.triage(Draft.of(referral.document()).read(asOf).document(), policy, books.inForce(), asOf);
    }
}
