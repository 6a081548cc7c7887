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
    void aPersonAddedGetsAPasswordThatOpensOnceItIsReplaced() {
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
    void twoPeopleCanNotHaveOneSignInNameNotEvenInCapitals() {
        actingAs.person(
                "manager",
                () -> assertThat(people.add("Manager", "Another", Role.MANAGER))
                        .isInstanceOfSatisfying(
                                AddOutcome.NameRefused.class,
                                refused -> assertThat(refused.why()).contains("Somebody already signs in as")));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "a", "two words", "-dash", "ümlaut", "x'; drop table account"})
    void aSignInNameThatCanNotBeTypedEverywhereIsRefused(String name) {
        actingAs.person(
                "manager",
                () -> assertThat(people.add(name, "Somebody", Role.PHYSICIAN))
                        .isInstanceOf(AddOutcome.NameRefused.class));
    }

    @Test
    void aPersonWithoutANameIsRefused() {
        actingAs.person(
                "manager",
                () -> assertThat(people.add("nameless", "  ", Role.PHYSICIAN))
                        .isInstanceOf(AddOutcome.DisplayNameRefused.class));
    }

    @Test
    void nobodyDeactivatesThemselves() {
        actingAs.person(
                "manager",
                () -> assertThatThrownBy(() -> people.deactivate(account("manager")))
                        .isInstanceOf(NotPossibleException.class)
                        .hasMessageContaining("yourself"));
    }

    @Test
    void theLastManagerStays() {
        actingAs.person("manager", () -> people.add("second", "Second Manager", Role.MANAGER));
        actingAs.person("second", () -> {
            people.deactivate(account("manager"));
            people.reactivate(account("manager"));
        });
        actingAs.person("manager", () -> people.deactivate(account("second")));
        assertThat(firstPeople.canSignIn("manager", TestDatabase.PASSWORD)).isTrue();
    }

    @Test
    void aChangeOnTopOfSomebodyElsesIsToldAndNotDone() {
        actingAs.person("manager", () -> {
            var read = account("coordinator");
            people.resetPassword(read);
            assertThatThrownBy(() -> people.resetPassword(read))
                    .isInstanceOf(NotPossibleException.class)
                    .hasMessageContaining("changed by somebody else");
        });
    }

    @Test
    void onlyAManagerSeesPeople() {
        actingAs.person(
                "physician", () -> assertThatThrownBy(() -> people.all()).isInstanceOf(AccessDeniedException.class));
        actingAs.person(
                "physician",
                () -> assertThatThrownBy(() -> activity.newestFirst(0, 10)).isInstanceOf(AccessDeniedException.class));
    }

    @Test
    void nobodySignedInSeesNothing() {
        assertThatThrownBy(() -> people.all()).isInstanceOf(AuthenticationCredentialsNotFoundException.class);
    }

    @Test
    void aPasswordOfOnesOwnReplacesThePresentOneOnlyWithThePresentOne() {
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
    void aPasswordTooShortTooLongOrWithTheNameInItIsRefused(String wanted) {
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
