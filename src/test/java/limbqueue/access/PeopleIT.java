package limbqueue.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.TestDatabase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.authentication.AuthenticationCredentialsNotFoundException;

@OnPostgres
class PeopleIT {

    @Autowired
    private People people;

    @Autowired
    private OwnPassword ownPassword;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private FirstPeople firstPeople;

    @Autowired
    private Activity activity;

    @Test
    void a_person_added_gets_a_password_that_opens_once_it_is_replaced() {
        actingAs.person("manager", () -> {
            var outcome = people.add("hal.firth", "Hal Firth", Role.COORDINATOR);
            assertThat(outcome).isInstanceOfSatisfying(AddOutcome.Added.class, added -> {
                assertThat(added.account().mustChangePassword()).isTrue();
                assertThat(added.password()).matches("[a-z2-9]{4}-[a-z2-9]{4}-[a-z2-9]{4}");
                assertThat(firstPeople.canSignIn("HAL.Firth", added.password())).isTrue();
            });
            assertThat(activity.newestFirst(0, 1)).first().satisfies(entry -> {
                assertThat(entry.who()).isEqualTo("Osric Pell");
                assertThat(entry.action()).isEqualTo("added person");
                assertThat(entry.subject()).isEqualTo("hal.firth");
            });
        });
    }

    @Test
    void two_people_can_not_have_one_sign_in_name_not_even_in_capitals() {
        actingAs.person(
                "manager",
                () -> assertThat(people.add("Manager", "Another", Role.MANAGER))
                        .isInstanceOfSatisfying(
                                AddOutcome.NameRefused.class,
                                refused -> assertThat(refused.why()).contains("Somebody already signs in as")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "a", "two words", "-dash", "ümlaut", "x'; drop table account"})
    void a_sign_in_name_that_can_not_be_typed_everywhere_is_refused(String name) {
        actingAs.person(
                "manager",
                () -> assertThat(people.add(name, "Somebody", Role.PHYSICIAN))
                        .isInstanceOf(AddOutcome.NameRefused.class));
    }

    @Test
    void a_person_without_a_name_is_refused() {
        actingAs.person(
                "manager",
                () -> assertThat(people.add("nameless", "  ", Role.PHYSICIAN))
                        .isInstanceOf(AddOutcome.DisplayNameRefused.class));
    }

    @Test
    void nobody_deactivates_themselves() {
        actingAs.person(
                "manager",
                () -> assertThatThrownBy(() -> people.deactivate(account("manager")))
                        .isInstanceOf(NotPossibleException.class)
                        .hasMessageContaining("yourself"));
    }

    @Test
    void the_last_manager_stays() {
        actingAs.person("manager", () -> people.add("second", "Second Manager", Role.MANAGER));
        actingAs.person("second", () -> {
            people.deactivate(account("manager"));
            people.reactivate(account("manager"));
        });
        actingAs.person("manager", () -> people.deactivate(account("second")));
        assertThat(firstPeople.canSignIn("manager", TestDatabase.PASSWORD)).isTrue();
    }

    @Test
    void a_change_on_top_of_somebody_elses_is_told_and_not_done() {
        actingAs.person("manager", () -> {
            var read = account("coordinator");
            people.resetPassword(read);
            assertThatThrownBy(() -> people.resetPassword(read))
                    .isInstanceOf(NotPossibleException.class)
                    .hasMessageContaining("changed by somebody else");
        });
    }

    @Test
    void only_a_manager_sees_people() {
        actingAs.person(
                "physician", () -> assertThatThrownBy(() -> people.all()).isInstanceOf(AccessDeniedException.class));
        actingAs.person(
                "physician",
                () -> assertThatThrownBy(() -> activity.newestFirst(0, 10)).isInstanceOf(AccessDeniedException.class));
    }

    @Test
    void nobody_signed_in_sees_nothing() {
        assertThatThrownBy(() -> people.all()).isInstanceOf(AuthenticationCredentialsNotFoundException.class);
    }

    @Test
    void a_password_of_ones_own_replaces_the_present_one_only_with_the_present_one() {
        actingAs.person("physician", () -> {
            assertThat(ownPassword.change("not it", "three quiet herons")).isFalse();
            assertThat(ownPassword.change(TestDatabase.PASSWORD, "three quiet herons"))
                    .isTrue();
        });
        assertThat(firstPeople.canSignIn("physician", "three quiet herons")).isTrue();
        assertThat(firstPeople.canSignIn("physician", TestDatabase.PASSWORD)).isFalse();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "short",
                "my-coordinator-1",
                "000000000100000000020000000003000000000400000000050000000006000000000700000000"
            })
    void a_password_too_short_too_long_or_with_the_name_in_it_is_refused(String wanted) {
        actingAs.person("coordinator", () -> {
            assertThat(ownPassword.objection(wanted)).isPresent();
            assertThatThrownBy(() -> ownPassword.change(TestDatabase.PASSWORD, wanted))
                    .isInstanceOf(IllegalArgumentException.class);
        });
    }

    private Account account(String name) {
        return people.all().stream()
                .filter(account -> account.signInName().equals(name))
                .findFirst()
                .orElseThrow();
    }
}
