package limbqueue.referral;

import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.Optional;
import limbqueue.document.Draft;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.PolicyVersion;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.Move.Cause;
import limbqueue.referral.jdbc.LatestProposalStore;
import limbqueue.referral.jdbc.LatestProposalStore.Kept;
import limbqueue.referral.jdbc.LatestProposalStore.Unproposed;
import limbqueue.triage.Policy;
import limbqueue.triage.Triage;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.Firings;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;

/**
 * Keeps the latest proposal of each referral: where it puts the referral, and which rules it rests on. Written when a
 * referral is put before the physician, saved after that, decided, and while it waits whenever a day has passed or another
 * policy counts. What differs from the one before in tier, target date or red flags is kept as a {@link Move}, each cause
 * by itself.
 *
 * <p>One row a referral, with the ids of its rules. Counting 100,000 such rows from end to end took about a second, so the
 * database keeps the count of each rule beside them, and changes only the counts of rules that a new proposal adds or
 * drops: saving the same again touches none, and reading the counts does not grow with the referrals
 * ({@code RuleFiringsIT}).
 */
@Component
class LatestProposals {

    /** Rows of one transaction when what came before this table is caught up with. */
    private static final int BATCH = 500;

    private final LatestProposalStore store;
    private final RuleBooks books;
    private final PolicyInForce policies;
    private final Clock clock;

    LatestProposals(LatestProposalStore store, RuleBooks books, PolicyInForce policies, Clock clock) {
        this.store = store;
        this.books = books;
        this.policies = policies;
        this.clock = clock;
    }

    /** Keeps what is proposed after something was entered; whatever it moves, it moved by what was entered. */
    void keep(long referral, TriageResult proposal) {
        store.find(referral)
                .flatMap(Kept::placing)
                .ifPresent(before -> moved(referral, Cause.RESULT, before, proposal));
        write(referral, proposal);
    }

    /** Keeps what a physician has just decided on: whatever moved before is seen. */
    void keepDecided(long referral, TriageResult proposal) {
        write(referral, proposal);
    }

    /**
     * Brings the proposal of a referral to today, to the policy that counts and to the rules of this version, if it is not
     * there yet and one was kept.
     *
     * @param document the document that the kept proposal was made on, which nobody else changes meanwhile
     */
    void bringToToday(long referral, String document) {
        var found = store.find(referral);
        if (found.isEmpty()) {
            return;
        }
        var kept = found.get();
        var today = LocalDate.now(clock);
        var policy = policies.on(today).policy();
        var book = books.inForce().id();
        if (kept.placing().isEmpty()) {
            write(referral, propose(document, policy, today));
            return;
        }
        // One cause after the other, so that each difference is put down to what made it.
        var earlier = policies.find(kept.policy()).map(PolicyVersion::policy).orElse(policy);
        var proposals = new EnumMap<Cause, TriageResult>(Cause.class);
        if (!kept.ruleBook().equals(book)) {
            proposals.put(Cause.RULE_BOOK, propose(document, earlier, kept.asOf()));
        }
        if (!kept.asOf().equals(today)) {
            proposals.put(Cause.DAY, propose(document, earlier, today));
        }
        if (!kept.policy().equals(policy.id())) {
            proposals.put(Cause.POLICY, propose(document, policy, today));
        }
        var before = kept.placing().get();
        var last = Optional.<TriageResult>empty();
        for (var step : proposals.entrySet()) {
            moved(referral, step.getKey(), before, step.getValue());
            before = Placing.of(step.getValue());
            last = Optional.of(step.getValue());
        }
        last.ifPresent(proposal -> write(referral, proposal));
    }

    /** The same for a referral that waits for a decision, in a transaction of its own; for any other, nothing. */
    @Transactional(propagation = Propagation.REQUIRES_NEW)
    public void bringToToday(long referral) {
        books.keep();
        store.lockWaiting(referral).ifPresent(document -> bringToToday(referral, document));
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
        unproposed.forEach(referral -> write(referral.id(), propose(referral, policy)));
        return unproposed.size();
    }

    private TriageResult propose(Unproposed referral, Policy policy) {
        return propose(referral.document(), policy, referral.asOf().orElseGet(() -> LocalDate.now(clock)));
    }

    private TriageResult propose(String document, Policy policy, LocalDate asOf) {
        return Triage.triage(Draft.of(document).read(asOf).document(), policy, books.inForce(), asOf);
    }

    private void moved(long referral, Cause cause, Placing before, TriageResult now) {
        var after = Placing.of(now);
        if (after.differsFrom(before)) {
            store.add(
                    referral,
                    cause,
                    now.asOf(),
                    now.policy(),
                    before,
                    after,
                    clock.instant().truncatedTo(ChronoUnit.MICROS));
        }
    }

    private void write(long referral, TriageResult proposal) {
        store.keep(
                referral,
                proposal.asOf(),
                proposal.policy(),
                proposal.ruleBook(),
                Firings.of(proposal),
                Placing.of(proposal));
    }
}
