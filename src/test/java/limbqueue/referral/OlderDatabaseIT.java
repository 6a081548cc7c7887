package limbqueue.referral;

import static org.assertj.core.api.Assertions.assertThat;

import limbqueue.testbed.TestDatabase;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A database that holds decisions from before policies and rule books were kept. */
class OlderDatabaseIT {

    @Test
    void itsDecisionsStayAsTheyWereAndNameTheFirstPolicy() {
        var source = TestDatabase.empty().dataSource();
        Flyway.configure().dataSource(source).target("4").load().migrate();
        var jdbc = JdbcClient.create(source);
        jdbc.sql("""
                insert into account (sign_in_name, display_name, role, password_hash, must_change_password)
                values ('physician', 'Dr Imogen Tarrant', 'PHYSICIAN', '{bcrypt}x', false)""").update();
        jdbc.sql("""
                insert into referral (reference, state, received, document, saved_by, saved_at, submitted_at)
                values ('LQ-2026-0001', 'QUEUED', date '2026-01-12', '{}', 'Wren Halloway', now(), now())""").update();
        jdbc.sql("""
                insert into decision (referral, version, kind, account, author, at, policy, as_of, document, proposal,
                                      proposed_tier, tier, target_date, reason)
                select r.id, 1, 'RETURNED', a.id, 'Dr Imogen Tarrant', now(), 'standard-1', date '2026-01-12', '{}', '{}',
                       'WITHIN_14_DAYS', 'WITHIN_14_DAYS', date '2026-01-26', 'Not for us.'
                from referral r cross join account a""").update();

        Flyway.configure().dataSource(source).load().migrate();

        assertThat(jdbc.sql("select policy, rule_book, reason from decision")
                        .query()
                        .singleRow())
                .containsEntry("policy", "standard-1")
                .containsEntry("rule_book", null)
                .containsEntry("reason", "Not for us.");
        assertThat(jdbc.sql("select p.version from policy_version p join decision d using (policy)")
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
    }
}
