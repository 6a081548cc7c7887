package limbqueue.referral;

import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import limbqueue.access.CurrentPerson;
import limbqueue.practice.Policies;
import limbqueue.practice.PolicyVersion;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.jdbc.SeenStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Which version of a referral each physician saw last, and what has changed since. */
@Service
public class LastSeen {

    private final SeenStore store;
    private final Policies policies;
    private final RuleBooks books;
    private final TriagedDocuments triaged;
    private final CurrentPerson currentPerson;
    private final Clock clock;

    LastSeen(
            SeenStore store,
            Policies policies,
            RuleBooks books,
            TriagedDocuments triaged,
            CurrentPerson currentPerson,
            Clock clock) {
        this.store = store;
        this.policies = policies;
        this.books = books;
        this.triaged = triaged;
        this.currentPerson = currentPerson;
        this.clock = clock;
    }

    /**
     * Keeps that the physician signed in sees this referral as it is now, and says what has changed since the time before
     * that it was something else: another version, another day or another policy. What was seen then is triaged by the
     * policy and as of the day of then.
     *
     * @return empty if it was never anything else before this physician
     */
    @RolesAllowed(IS_PHYSICIAN)
    @Transactional
    public Optional<Seen> look(Referral referral) {
        var me = currentPerson.get();
        var today = LocalDate.now(clock);
        var policy = policies.inForce().policy();
        var book = books.inForce();
        var before = store.before(me.id(), referral.id(), referral.version(), today, policy.id());
        store.keep(
                me.id(),
                referral.id(),
                referral.version(),
                today,
                policy.id(),
                clock.instant().truncatedTo(ChronoUnit.MICROS));
        return before.map(sight -> {
            var then = triaged.triage(
                    sight.document(),
                    policies.find(sight.policy()).map(PolicyVersion::policy).orElse(policy),
                    book,
                    sight.asOf());
            var now = triaged.triage(referral.document(), policy, book, today);
            return new Seen(sight.at(), sight.document(), WhatChanged.between(then.proposal(), now.proposal(), policy));
        });
    }
}
