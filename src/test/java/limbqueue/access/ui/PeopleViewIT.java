package limbqueue.access.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;

@InBrowser
class PeopleViewIT {

    @Test
    void aPersonAddedSignsInOnceAndChoosesAPassword(Visitor manager, Visitor newcomer) {
        manager.signIn("manager");
        var password = add(manager, "hal.firth", "Hal Firth", "coordinator");

        newcomer.signIn("hal.firth", password);
        assertThat(newcomer.place()).isEqualTo("password");
        // Before a password is chosen, nothing else opens.
        newcomer.open("referrals").page().waitForURL("**/password");
        newcomer.field("Present password").fill(password);
        newcomer.field("New password").fill("short");
        newcomer.field("New password, again").fill("short");
        newcomer.button("Change password").click();
        assertThat(newcomer.page().getByText("Use at least 10 characters")).isVisible();
        newcomer.field("New password").fill("three quiet herons");
        newcomer.field("New password, again").fill("three quiet herons");
        newcomer.button("Change password").click();
        newcomer.page().waitForURL("**/work");

        newcomer.button("Sign out").click();
        newcomer.page().waitForURL("**/sign-in");
        newcomer.signIn("hal.firth", "three quiet herons");
        assertThat(newcomer.place()).isEqualTo("work");
    }

    @Test
    void aPersonDeactivatedIsOutAtTheNextClickAndCanNotComeBack(Visitor manager, Visitor leaver) {
        manager.signIn("manager");
        var password = add(manager, "ida.moss", "Ida Moss", "physician");
        leaver.signIn("ida.moss", password);
        manager.button("Deactivate Ida Moss").click();
        manager.button("Deactivate").click();
        assertThat(manager.page().getByText("Ida Moss can't sign in any more.")).isVisible();
        leaver.page().reload();
        leaver.page().waitForURL("**/sign-in");
        leaver.signInExpectingRefusal("ida.moss", password);
        assertThat(leaver.page().textContent("[role=alert]")).contains("don't go together");
    }

    @Test
    void aNameAlreadyTakenIsToldAtTheFieldAndWhatWasTypedStays(Visitor manager) {
        manager.signIn("manager");
        fill(manager, "physician", "Another Physician", "physician");
        assertThat(manager.page().getByLabel("Add a person").getByText("Somebody already signs in as physician"))
                .isVisible();
        assertThat(manager.field("Name, as colleagues read it")).hasValue("Another Physician");
        assertThat(manager.accessibilityViolations()).isEmpty();
        manager.picture(Path.of("target/pictures/people-add.png"), 1024);
    }

    @Test
    void thePageIsForTheManagerAlone(Visitor coordinator) {
        coordinator.signIn("coordinator").open("people");
        assertThat(coordinator.heading("This page is not for your role")).isVisible();
        assertThat(coordinator.page().content()).doesNotContain("Osric Pell");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(Path.of("target/pictures/not-allowed.png"), 1440);
    }

    @Test
    void thePagesOfTheManagerCanBeUsedByEverybody(Visitor manager) {
        manager.signIn("manager");
        for (var place : new String[] {"people", "practice", "activity", "password"}) {
            manager.open(place);
            assertThat(manager.accessibilityViolations()).as(place).isEmpty();
            manager.picture(Path.of("target/pictures/" + place + ".png"), 1440);
            manager.picture(Path.of("target/pictures/" + place + "-1024.png"), 1024);
        }
    }

    private static String add(Visitor manager, String signInName, String displayName, String role) {
        fill(manager, signInName, displayName, role);
        var password = manager.page().locator(".lq-password-once");
        assertThat(password).isVisible();
        var shown = password.textContent();
        manager.button("I have noted it").click();
        assertThat(password).isHidden();
        manager.rest();
        return shown;
    }

    private static void fill(Visitor manager, String signInName, String displayName, String role) {
        manager.open("people").button("Add a person").click();
        manager.field("Name, as colleagues read it").fill(displayName);
        manager.field("Sign-in name").fill(signInName);
        manager.page()
                .getByRole(AriaRole.RADIO, new Page.GetByRoleOptions().setName(role))
                .check(new Locator.CheckOptions().setForce(true));
        manager.button("Add").click();
        manager.rest();
    }
}
