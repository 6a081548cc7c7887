package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import limbqueue.access.ActingAs;
import limbqueue.practice.PolicyInForce;
import limbqueue.practice.RuleBooks;
import limbqueue.referral.SaveOutcome.Saved;
import limbqueue.referral.SubmitOutcome.Submitted;
import limbqueue.testbed.OnPostgres;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** How often each rule speaks; the tests add to what the ones before them left. */
@OnPostgres
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class RuleFiringsIT {

    @Autowired
    private Referrals referrals;

    @Autowired
    private RuleFirings firings;

    @Autowired
    private LatestProposals latest;

    @Autowired
    private PolicyInForce policy;

    @Autowired
    private RuleBooks books;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private <T> T as(String person, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> result.set(work.get()));
        return result.get();
    }

    private Referral queued(String document) {
        var entered = as("coordinator", () -> referrals.enter(document));
        return ((Submitted) as("coordinator", () -> referrals.submit(entered.id(), entered.version()))).referral();
    }

    private RuleFirings.Count count() {
        var count = as("physician", firings::count);
        assertThat(count.byRule()).isEqualTo(counted());
        return count;
    }

    /** The counts, taken from the proposals themselves. */
    private Map<String, Integer> counted() {
        return jdbc
                .sql(
                        "select rule, count(*) from latest_proposal cross join lateral unnest(rules) as rule group by rule")
                .query((row, number) -> Map.entry(row.getString(1), row.getInt(2)))
                .list()
                .stream()
                .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
    }

    @Test
    @Order(1)
    void theLatestProposalOfEachReferralCountsAndADraftDoesNot() {
        as("coordinator", () -> referrals.enter(Arriving.REST_PAIN));
        assertThat(count().referrals()).isZero();

        var one = queued(Arriving.REST_PAIN);
        assertThat(count().referrals()).isEqualTo(1);
        assertThat(count().of("urgency-rest-pain")).isEqualTo(1);
        assertThat(count().of("work-up-toe-pressure")).isZero();
        assertThat(count().of("only-leg")).isZero();

        var other = queued(Arriving.REST_PAIN);
        assertThat(count().of("urgency-rest-pain")).isEqualTo(2);

        // Saved in the queue, it is no rest pain any more: the new proposal takes the place of the old one.
        var painless = Arriving.REST_PAIN.replace("\"present\": true, \"sinceDays\": 40", "\"present\": false");
        var saved = (Saved) as("coordinator", () -> referrals.save(other.id(), other.version(), painless));
        assertThat(count().of("urgency-rest-pain")).isEqualTo(1);
        assertThat(count().referrals()).isEqualTo(2);

        as("physician", () -> referrals.decide(one.id(), one.version(), new Decision.Approve()));
        as(
                "physician",
                () -> referrals.decide(
                        other.id(), saved.referral().version(), new Decision.ReturnToReferrer("Not for us.")));
        assertThat(count().referrals()).isEqualTo(2);
        assertThat(count().of("urgency-rest-pain")).isEqualTo(1);
    }

    @Test
    @Order(2)
    void referralsThatCameBeforeAreCaughtUpWith() {
        var before = count();
        assertThat(before.referrals()).isEqualTo(2);
        jdbc.sql("delete from latest_proposal").update();
        assertThat(count().byRule()).isEmpty();

        assertThat(latest.catchUp(policy.version().policy())).isEqualTo(2);
        assertThat(count()).isEqualTo(before);
        assertThat(latest.catchUp(policy.version().policy())).isZero();
    }

    @Test
    @Order(3)
    void whoEntersReferralsDoesNotCountThem() {
        assertThatThrownBy(() -> as("coordinator", firings::count)).isInstanceOf(AccessDeniedException.class);
        assertThat(as("manager", firings::count)).isEqualTo(count());
    }

    @Test
    @Order(4)
    void theCountOf100000ReferralsIsThereAtOnce() {
        books.keep();
        jdbc.sql("""
                insert into referral (reference, state, received, document, saved_by, saved_at, submitted_at)
                select 'M-' || n, 'QUEUED', date '2026-01-12', '{}', 'Wren Halloway', now(), now()
                from generate_series(1, 100000) as n
                """).update();
        var added = jdbc.sql("""
                insert into latest_proposal (referral, as_of, policy, rule_book, rules)
                select r.id, date '2026-01-12', p.policy, p.rule_book, p.rules
                from referral r cross join (select policy, rule_book, rules from latest_proposal order by referral limit 1) p
                where r.reference like 'M-%'
                """).update();
        assertThat(added).isEqualTo(100_000);
        var rules = count().byRule().size();
        assertThat(rules).isGreaterThan(15);

        var best = Duration.ofDays(1);
        for (var i = 0; i < 3; i++) {
            var begun = System.nanoTime();
            assertThat(as("physician", firings::count).of("urgency-rest-pain")).isEqualTo(100_001);
            var took = Duration.ofNanos(System.nanoTime() - begun);
            best = took.compareTo(best) < 0 ? took : best;
        }
        System.out.println("Counting " + rules + " rules of 100,000 referrals took " + best.toMillis() + " ms.");
        assertThat(best).isLessThan(Duration.ofMillis(200));
    }
}
