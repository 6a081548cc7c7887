package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Clock;
import java.util.HashMap;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import limbqueue.access.ActingAs;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.directory.Directory;
import limbqueue.practice.Policies;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.PracticeSettings;
import limbqueue.practice.RuleBooks;
import limbqueue.practice.jdbc.RuleBookStore;
import limbqueue.referral.DecideOutcome.Decided;
import limbqueue.referral.Recomputed.Different;
import limbqueue.referral.Recomputed.NotPossible;
import limbqueue.referral.Recomputed.Same;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.referral.jdbc.LatestProposalStore;
import limbqueue.referral.jdbc.ReferralQuery;
import limbqueue.referral.jdbc.ReferralStore;
import limbqueue.referral.jdbc.SecondLookStore;
import limbqueue.testbed.OnPostgres;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.transaction.support.TransactionTemplate;

/** What was decided comes out again from what is kept with it, whatever rule book and policy came afterwards. */
@OnPostgres
class RecomputationIT {

    /** Claudication that limits life, at a resting index on which a changed limit turns. */
    private static final String CLAUDICATION = """
            {"received": "2026-01-12",
             "patient": {"given": "Ansel", "family": "Brackwater", "born": "1955-02-11"},
             "referrer": {"name": "Dr Ines Farrow", "organisation": "Millbeck Surgery", "address": "12 Tannery Row, Millbeck"},
             "legs": {"left": {"claudication": {"present": true, "distanceMetres": 60, "course": "stable", "limitsLife": true},
                               "restPain": {"present": false}, "wound": {"ulcer": "none", "gangrene": "none"},
                               "acute": {"present": false}, "abi": 1.35}}}""";

    @Autowired
    private ReferralStore store;

    @Autowired
    private ReferralQuery query;

    @Autowired
    private LatestProposalStore latestStore;

    @Autowired
    private RuleBookStore bookStore;

    @Autowired
    private PracticeSettings settings;

    @Autowired
    private Policies policies;

    @Autowired
    private CurrentPerson currentPerson;

    @Autowired
    private AuditTrail auditTrail;

    @Autowired
    private ApplicationEventPublisher events;

    @Autowired
    private Clock clock;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private Directory directory;

    @Autowired
    private PolicyInForce policyInForce;

    @Autowired
    private SecondLookRule secondLookRule;

    @Autowired
    private SecondLookStore looks;

    @Autowired
    private Recomputation recomputation;

    /** This database under a version of the product that comes with another rule book. */
    private final class Version {

        final RuleBooks books;
        final Referrals referrals;
        final Recomputation recomputation;

        Version(RuleBook book) {
            books = new RuleBooks(bookStore, book);
            var latest = new LatestProposals(latestStore, books, policyInForce, clock);
            referrals = new Referrals(
                    store,
                    query,
                    latest,
                    new ProposedCases(query, policyInForce, books, clock),
                    new Deciding(store, latest, auditTrail, events),
                    secondLookRule,
                    looks,
                    new TriagedDocuments(),
                    settings,
                    books,
                    directory,
                    currentPerson,
                    auditTrail,
                    events,
                    clock);
            recomputation = new Recomputation(store, policies, books);
        }

        DecisionRecord decide(String document) {
            var entered = as("coordinator", () -> referrals.enter(document));
            var queued = (Submitted) as("coordinator", () -> referrals.submit(entered.id(), entered.version()));
            var decided = as(
                    "physician",
                    () -> referrals.decide(
                            entered.id(), queued.referral().version(), new Decision.ReturnToReferrer("Not for us.")));
            return ((Decided) decided).decision();
        }

        Recomputed recompute(DecisionRecord decision) {
            return as("physician", () -> recomputation.recompute(decision.id()));
        }
    }

    private <T> T as(String person, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> transaction.executeWithoutResult(status -> result.set(work.get())));
        return result.get();
    }

    private static RuleBook book(String limit, String rows) {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent("thresholds.txt", (name, text) -> text.replaceAll("(?m)^" + limit + " .*\n", "") + rows);
        return RuleBook.of(files);
    }

    /** The book as it would have come with a product of 2010. */
    private static final RuleBook BEFORE = book(
            "abi-normal-at-most",
            "abi-normal-at-most | 1.30 | 1 | 2006-03-21 | - | acc-aha-2005 | figure on asymptomatic disease | confirmed\n");

    /** The book since: the old value ended on 28 September 2011, another in force. */
    private static final RuleBook AFTER = RuleBook.shipped();

    /** The book with the old value found wrong, for all days past as well. */
    private static final RuleBook CORRECTED = book(
            "abi-normal-at-most",
            "abi-normal-at-most | 1.34 | 1 | 2006-03-21 | - | acc-aha-2005 | corrected, invented | memory\n");

    @Test
    void aDecisionComesOutAgainAfterTheThresholdChanged() {
        var before = new Version(BEFORE);
        var old = before.decide(CLAUDICATION);
        assertThat(old.ruleBook()).contains(BEFORE.id());
        assertThat(old.proposal()).contains("noncompressible").contains("\"ruleBook\":\"" + BEFORE.id() + "\"");

        for (var book : new RuleBook[] {AFTER, CORRECTED}) {
            var later = new Version(book);
            var fresh = later.decide(CLAUDICATION);
            assertThat(fresh.ruleBook()).contains(book.id());
            assertThat(fresh.proposal()).isNotEqualTo(old.proposal()).contains(book.id());
            assertThat(fresh.asOf()).isEqualTo(old.asOf());
            assertThat(later.recompute(old)).isEqualTo(new Same(BEFORE.id(), old.policy(), old.asOf()));
            assertThat(later.recompute(fresh)).isEqualTo(new Same(book.id(), old.policy(), old.asOf()));
            // Also once the product has gone back to the book before.
            assertThat(before.recompute(fresh)).isEqualTo(new Same(book.id(), old.policy(), old.asOf()));
        }
        // The correction lies on the other side of the patient's index, so the proposal itself differs, not just its
        // book.
        assertThat(new Version(AFTER).decide(CLAUDICATION).proposal()).doesNotContain("noncompressible");
    }

    @Test
    void aDecisionComesOutAgainAfterThePolicyChanged() {
        var version = new Version(RuleBook.shipped());
        var old = version.decide(Arriving.REST_PAIN);
        var days = new HashMap<>(Policy.standard().days());
        days.put(Tier.WITHIN_14_DAYS, 10);
        var tighter = new Policy("tighter", days, Policy.standard().validity());
        as(
                "physician",
                () -> policies.publish(tighter, as("manager", version.referrals::today), "Ten days from now on."));
        var fresh = version.decide(Arriving.REST_PAIN);

        assertThat(fresh.policy()).isEqualTo("tighter");
        assertThat(fresh.proposal()).contains("\"targetDate\":\"2026-01-22\"");
        assertThat(old.proposal()).contains("\"targetDate\":\"2026-01-26\"");
        assertThat(version.recompute(old)).isEqualTo(new Same(RuleBook.shipped().id(), "standard-1", old.asOf()));
        assertThat(version.recompute(fresh))
                .isEqualTo(new Same(RuleBook.shipped().id(), "tighter", fresh.asOf()));
    }

    @Test
    void aProposalThatDoesNotComeOutAgainIsToldApart() {
        var made = new Version(RuleBook.shipped()).decide(Arriving.REST_PAIN);
        var id = jdbc.sql("""
                        insert into decision (referral, version, kind, account, author, at, policy, rule_book, as_of, document,
                                              proposal, proposed_tier, tier, target_date, reason)
                        select referral, version + 1000, kind, account, author, at, policy, rule_book, as_of, document,
                               replace(proposal::text, 'rest-pain', 'rest-plain')::json, proposed_tier, tier, target_date,
                               reason
                        from decision
                        where id = :id
                        returning id""").param("id", made.id()).query(Long.class).single();
        assertThat(as("physician", () -> recomputation.recompute(id)))
                .isEqualTo(new Different(RuleBook.shipped().id(), made.policy(), made.asOf(), made.proposal()));
    }

    @Test
    void aBookThatCannotBeReadAnyMoreIsSaid() {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent(
                "thresholds.txt",
                (name, text) -> text + "no-more | 1 | 1 | 2012-12-11 | - | common-practice | x | memory\n");
        bookStore.keep("00000000000000aa", files);
        var made = new Version(RuleBook.shipped()).decide(Arriving.REST_PAIN);
        var id = jdbc.sql("""
                        insert into decision (referral, version, kind, account, author, at, policy, rule_book, as_of, document,
                                              proposal, proposed_tier, tier, target_date, reason)
                        select referral, version + 1000, kind, account, author, at, policy, '00000000000000aa', as_of, document,
                               proposal, proposed_tier, tier, target_date, reason
                        from decision
                        where id = :id
                        returning id""").param("id", made.id()).query(Long.class).single();
        assertThat(as("physician", () -> recomputation.recompute(id)))
                .isInstanceOfSatisfying(
                        NotPossible.class, told -> assertThat(told.why()).contains("00000000000000aa", "no-more"));
    }

    @Test
    void aDecisionMadeBeforeRuleBooksWereKeptIsSaidToBeOne() {
        var made = new Version(RuleBook.shipped()).decide(Arriving.REST_PAIN);
        actingAs.person(
                "physician",
                () -> transaction.executeWithoutResult(status -> {
                    status.setRollbackOnly();
                    jdbc.sql("alter table decision drop constraint decision_names_its_rule_book")
                            .update();
                    var id = jdbc.sql("""
                            insert into decision (referral, version, kind, account, author, at, policy, as_of, document,
                                                  proposal, proposed_tier, tier, target_date, reason)
                            select referral, version + 1000, kind, account, author, at, policy, as_of, document, proposal,
                                   proposed_tier, tier, target_date, reason
                            from decision
                            where id = :id
                            returning id""")
                            .param("id", made.id())
                            .query(Long.class)
                            .single();
                    assertThat(recomputation.recompute(id))
                            .isEqualTo(new NotPossible("The decision was made before rule books were kept."));
                }));
    }

    @Test
    void aDecisionNamesItsRuleBook() {
        var made = new Version(RuleBook.shipped()).decide(Arriving.REST_PAIN);
        assertThatThrownBy(() -> jdbc.sql("""
                        insert into decision (referral, version, kind, account, author, at, policy, as_of, document, proposal,
                                              proposed_tier, tier, target_date, reason)
                        select referral, version + 1000, kind, account, author, at, policy, as_of, document, proposal,
                               proposed_tier, tier, target_date, reason
                        from decision
                        where id = :id""").param("id", made.id()).update())
                .isInstanceOf(DataIntegrityViolationException.class)
                .hasMessageContaining("decision_names_its_rule_book");
    }

    @Test
    void onlyAPhysicianRecomputes() {
        assertThatThrownBy(() -> as("coordinator", () -> recomputation.recompute(1)))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> as("physician", () -> recomputation.recompute(-1)))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
