package limbqueue.practice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Clock;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Supplier;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.access.Person;
import limbqueue.document.PolicyFormat;
import limbqueue.practice.jdbc.RuleBookStore;
import limbqueue.testbed.OnPostgres;
import limbqueue.triage.Policy;
import limbqueue.triage.Tier;
import limbqueue.triage.rule.RuleBook;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** The policy in its versions, and the rule books kept. A version is never taken back, so the tests follow each other. */
@OnPostgres
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class PoliciesIT {

    @Autowired
    private Policies policies;

    @Autowired
    private LeadPhysicians leads;

    @Autowired
    private PracticeSettings settings;

    @Autowired
    private RuleBooks books;

    @Autowired
    private RuleBookStore store;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private Clock clock;

    @Autowired
    private JdbcClient jdbc;

    private <T> T as(String person, Supplier<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person(person, () -> result.set(work.get()));
        return result.get();
    }

    private static Policy policy(String id, int days) {
        var tiers = new HashMap<>(Policy.standard().days());
        tiers.put(Tier.WITHIN_6_WEEKS, days);
        return new Policy(id, tiers, Policy.standard().validity());
    }

    @Test
    @Order(1)
    void theFirstVersionIsThePolicyThatTheProductComesWith() {
        var first = as("coordinator", policies::inForce);
        assertThat(first.version()).isEqualTo(1);
        assertThat(first.policy()).isEqualTo(Policy.standard());
        assertThat(jdbc.sql("select content::text from policy_version where version = 1")
                        .query(String.class)
                        .single())
                .isEqualTo(PolicyFormat.write(Policy.standard()).toString());
    }

    @Test
    @Order(2)
    void aPublishedVersionCountsFromItsFirstDayAndTheEarlierOneIsKept() {
        var today = LocalDate.now(clock);
        var later = as("physician", () -> policies.publish(policy("later", 35), today.plusDays(3), "Next week."));
        assertThat(later.version()).isEqualTo(2);
        assertThat(as("manager", settings::policy)).isEqualTo(Policy.standard());

        var now = as("physician", () -> policies.publish(policy("sooner", 28), today, " More rooms on Fridays. "));
        assertThat(now)
                .isEqualTo(new PolicyVersion(
                        3,
                        policy("sooner", 28),
                        today,
                        "Dr Imogen Tarrant",
                        "More rooms on Fridays.",
                        SecondLook.standard(),
                        now.publishedAt()));
        assertThat(as("coordinator", policies::inForce)).isEqualTo(now);
        assertThat(as("coordinator", settings::policy)).isEqualTo(now.policy());
        assertThat(as("coordinator", policies::versions))
                .extracting(PolicyVersion::version)
                .containsExactly(3, 2, 1);
        assertThat(as("coordinator", () -> policies.find("standard-1")))
                .get()
                .extracting(PolicyVersion::policy)
                .isEqualTo(Policy.standard());
        assertThat(as("coordinator", () -> policies.find("never"))).isEmpty();
    }

    @Test
    @Order(3)
    void aPolicyThatCannotCountIsRefusedInWords() {
        var today = LocalDate.now(clock);
        assertThatThrownBy(() -> as("physician", () -> policies.publish(policy("x", 30), today.minusDays(1), "Why.")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("past");
        assertThatThrownBy(() -> as("physician", () -> policies.publish(policy("x", 30), today, " ")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("Say why");
        assertThatThrownBy(() -> as("physician", () -> policies.publish(policy("standard-1", 30), today, "Why.")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("another name");
        assertThatThrownBy(() -> as("manager", () -> policies.publish(policy("x", 30), today, "Why.")))
                .isInstanceOf(AccessDeniedException.class);
    }

    @Test
    @Order(6)
    void onlyThePhysicianWhomThePracticeNamesPublishes() {
        var today = LocalDate.now(clock);
        assertThat(as("physician", leads::leads)).isTrue();
        assertThat(as("manager", leads::leads)).isFalse();
        assertThatThrownBy(() -> as("physician", () -> named(Optional.empty())))
                .isInstanceOf(AccessDeniedException.class);

        jdbc.sql("""
                insert into account (sign_in_name, display_name, role, password_hash, must_change_password)
                select 'second', 'Dr Aurel Finch', role, password_hash, false from account where sign_in_name = 'physician'
                """).update();
        var second = as("manager", leads::physicians).getFirst();
        assertThat(second.displayName()).isEqualTo("Dr Aurel Finch");
        as("manager", () -> named(Optional.of(second)));
        assertThat(as("physician", leads::named)).contains(second);
        assertThatThrownBy(() -> as("physician", () -> policies.publish(policy("x", 30), today, "Why.")))
                .isInstanceOf(NotPossibleException.class)
                .hasMessage("Dr Aurel Finch leads, and publishes the policy.");
        var theirs = as(
                "second",
                () -> policies.publish(policy("theirs", 30), today, "Fewer rooms.", new SecondLook(true, false)));
        assertThat(as("manager", policies::inForce)).isEqualTo(theirs);
        assertThat(theirs.secondLook().loweredBelowLimbThreat()).isFalse();

        // Who may not sign in any more leads nobody.
        jdbc.sql("update account set active = false where sign_in_name = 'second'")
                .update();
        assertThat(as("physician", leads::leads)).isTrue();
        assertThatThrownBy(() -> as("manager", () -> named(Optional.of(second))))
                .isInstanceOf(NotPossibleException.class);
    }

    private boolean named(Optional<Person> lead) {
        leads.name(lead);
        return true;
    }

    @Test
    @Order(4)
    void versionsAndBooksAreOnlyEverAdded() {
        books.keep();
        books.keep();
        assertThat(jdbc.sql("select count(*) from rule_book")
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);
        for (var sql : new String[] {
            "update policy_version set reason = 'other'",
            "delete from policy_version",
            "truncate policy_version cascade",
            "update rule_book set first_used = now()",
            "delete from rule_book",
            "truncate rule_book cascade"
        }) {
            assertThatThrownBy(() -> jdbc.sql(sql).update())
                    .as(sql)
                    .isInstanceOf(DataAccessException.class)
                    .hasMessageContaining("only ever added");
        }
    }

    @Test
    @Order(5)
    void aBookComesBackAsItWasKept() {
        var files = new HashMap<>(RuleBook.shipped().files());
        files.computeIfPresent("rules.txt", (name, text) -> text + "# \"quoted\" \\ ü\n");
        var other = new RuleBooks(store, RuleBook.of(files));
        other.keep();
        assertThat(books.find(other.inForce().id())).contains(other.inForce());
        assertThat(books.find(RuleBook.shipped().id())).contains(RuleBook.shipped());
        assertThat(books.find("0000000000000000")).isEmpty();
    }
}
