package limbqueue.referral;

import java.time.Instant;
import java.util.Optional;
import limbqueue.access.AuditTrail;
import limbqueue.access.Person;
import limbqueue.document.ResultFormat;
import limbqueue.referral.jdbc.ReferralStore;
import limbqueue.triage.Policy;
import limbqueue.triage.ReferralDocument;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.RuleBook;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;

/** Keeps a decision with all that it was made on, and puts the referral where it leads. */
@Component
class Deciding {

    private final ReferralStore store;
    private final LatestProposals latest;
    private final AuditTrail auditTrail;
    private final ApplicationEventPublisher events;

    Deciding(ReferralStore store, LatestProposals latest, AuditTrail auditTrail, ApplicationEventPublisher events) {
        this.store = store;
        this.latest = latest;
        this.auditTrail = auditTrail;
        this.events = events;
    }

    /**
     * Within a transaction that holds the lock of the referral.
     *
     * @param before the referral as it was locked, in the queue
     * @param author whose decision it is
     */
    DecideOutcome.Decided settle(
            Referral before,
            Ruling.Stands ruling,
            ReferralDocument document,
            TriageResult proposal,
            Policy policy,
            RuleBook book,
            Person author,
            Instant at) {
        var made = store.add(
                new DecisionRecord(
                        0,
                        before.id(),
                        ruling.kind(),
                        author.displayName(),
                        at,
                        policy.id(),
                        Optional.of(book.id()),
                        proposal.asOf(),
                        before.document(),
                        ResultFormat.write(proposal),
                        proposal.urgency().tier(),
                        ruling.tier(),
                        ruling.targetDate(),
                        ruling.categories(),
                        ruling.reason()),
                before.version(),
                author);
        var settled = store.settle(before.id(), before.version(), ruling.leadsTo(), made.id())
                .orElseThrow(
                        () -> new IllegalStateException("referral " + before.reference() + " changed under its lock"));
        latest.keepDecided(before.id(), proposal);
        auditTrail.record(
                switch (made.kind()) {
                    case APPROVED -> "approved";
                    case CHANGED -> "changed and approved";
                    case INFORMATION_ASKED -> "asked for information on";
                    case RETURNED -> "returned";
                    case SENT_TO_HOSPITAL -> "sent to hospital";
                },
                before.reference());
        events.publishEvent(new ReferralDecided(settled, made, document, proposal, policy));
        return new DecideOutcome.Decided(settled, made);
    }
}
