package limbqueue.referral;

import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import limbqueue.document.Draft;
import limbqueue.document.ResultFormat;
import limbqueue.practice.Policies;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.ReferralStore;
import limbqueue.triage.Triage;
import limbqueue.triage.rule.RuleBook;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Works out again what was proposed when a physician decided, with the rule book and the policy of that day. */
@Service
public class Recomputation {

    private final ReferralStore store;
    private final Policies policies;
    private final RuleBooks books;

    Recomputation(ReferralStore store, Policies policies, RuleBooks books) {
        this.store = store;
        this.policies = policies;
        this.books = books;
    }

    /**
     * The proposal of a decision again, from the document, the policy, the rule book and the day that are kept with it.
     *
     * @throws IllegalArgumentException if there is no decision with this id
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional(readOnly = true)
    public Recomputed recompute(long decisionId) {
        var decision = store.decision(decisionId)
                .orElseThrow(() -> new IllegalArgumentException("There is no decision " + decisionId + "."));
        if (decision.ruleBook().isEmpty()) {
            return new Recomputed.NotPossible("The decision was made before rule books were kept.");
        }
        var bookId = decision.ruleBook().get();
        try {
            var book = books.find(bookId).orElseThrow(() -> new IllegalStateException("rule book " + bookId));
            return compared(decision, book);
        } catch (IllegalArgumentException unreadable) {
            return new Recomputed.NotPossible("This version of LimbQueue cannot read the rule book " + bookId
                    + " of that day any more: " + unreadable.getMessage() + ".");
        }
    }

    private Recomputed compared(DecisionRecord decision, RuleBook book) {
        var policy = policies.find(decision.policy())
                .orElseThrow(() -> new IllegalStateException("policy " + decision.policy()))
                .policy();
        var document = Draft.of(decision.document()).read(decision.asOf()).document();
        var proposal = ResultFormat.write(Triage.triage(document, policy, book, decision.asOf()));
        return proposal.equals(decision.proposal())
                ? new Recomputed.Same(book.id(), policy.id(), decision.asOf())
                : new Recomputed.Different(book.id(), policy.id(), decision.asOf(), proposal);
    }
}
