package limbqueue.policy.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import limbqueue.access.ActingAs;
import limbqueue.referral.AgeingNow;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;

/** The policy from the first change to the referrals that it moves, in a browser. */
@InBrowser
class PolicyViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private ApplicationContext application;

    @Test
    void aPolicyIsWrittenPreviewedPublishedReadAndWhatItMovesComesUp(Visitor physician, Visitor manager)
            throws IOException {
        for (var name :
                List.of("05-rest-pain", "02-limiting-claudication", "10-acute-cold-leg", "27-on-blood-thinners")) {
            queued(name);
        }
        physician.signIn("physician").open("policy");
        assertThat(physician.page().locator("main")).containsText("No draft yet");
        var fortnight = physician.field("Within 14 days (days)");
        assertThat(fortnight).hasValue("14");
        assertThat(physician.page().locator("main")).containsText("1 to 366. Comes with 14, in force 14.");

        // What cannot be right is told at its field and kept all the same.
        fortnight.fill("ten");
        assertThat(physician.page().locator("main")).containsText("Draft saved by Dr Imogen Tarrant");
        assertThat(fortnight).hasAttribute("aria-invalid", "true");
        physician.open("policy");
        assertThat(physician.field("Within 14 days (days)")).hasValue("ten");
        press(physician, "Preview on open referrals");
        assertThat(physician.page().getByRole(AriaRole.ALERT).filter(new Locator.FilterOptions().setHasText("Mend")))
                .isVisible();

        physician.field("Within 14 days (days)").fill("10");
        physician.field("Imaging (months)").fill("1");
        physician.page().keyboard().press("Tab");
        physician.rest();
        press(physician, "Preview on open referrals");
        var preview = physician.page().locator(".lq-policy-preview");
        assertThat(preview).containsText("2 would move, 1 more would get another work-up, 1 stays as it is");
        assertThat(preview).containsText("was Within 14 days, by");
        assertThat(preview).containsText(TriageResult.NOTICE);
        assertThat(physician.accessibilityViolations()).isEmpty();
        picture(physician, "policy-preview");

        // The reason is still missing.
        press(physician, "Publish…");
        assertThat(physician.page().locator("main")).containsText("Say why the policy changes");
        physician.field("Why the policy changes").fill("Two more places a week since March.");
        assertThat(physician.field("Why the policy changes")).not().hasAttribute("aria-invalid", "true");
        picture(physician, "policy");
        press(physician, "Publish…");
        var dialog = physician.page().locator("vaadin-dialog[opened]");
        assertThat(dialog).containsText("Of 4 open referrals 2 would move");
        dialog.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Publish"))
                .focus();
        physician.page().keyboard().press("Enter");
        assertThat(physician.page().locator(".lq-policy-said")).containsText("policy-2 is published");
        assertThat(physician.page().locator(".lq-policy-history"))
                .containsText("Target of the tier Within 14 days was 14 days, is 10 days.");
        physician.page().getByText("Read policy-2").focus();
        physician.page().keyboard().press("Enter");
        assertThat(physician.page().getByText("changed", new Page.GetByTextOptions().setExact(true)))
                .hasCount(2);
        assertThat(physician.accessibilityViolations()).isEmpty();
        picture(physician, "policy-history");

        new AgeingNow(application).run();
        physician.open("queue");
        var moved = physician.page().locator(".lq-moved");
        assertThat(moved).containsText("Moved since you last saw them (2)");
        assertThat(moved).containsText("the policy is now policy-2");
        assertThat(physician.page().locator(".lq-moved-mark")).hasCount(2);
        assertThat(physician.accessibilityViolations()).isEmpty();
        picture(physician, "queue-moved");
        moved.getByRole(AriaRole.LINK).first().focus();
        physician.page().keyboard().press("Enter");
        physician.page().waitForURL("**/referrals/*");
        physician.rest();
        assertThat(physician.page().locator(".lq-moved-aside")).containsText("The target date was");
        assertThat(physician.accessibilityViolations()).isEmpty();
        picture(physician, "referral-moved");
        press(physician, "Seen: what moved of this referral");
        assertThat(physician.page().locator(".lq-moved")).hasCount(0);

        manager.signIn("manager").open("policy");
        assertThat(manager.page().locator(".lq-policy-history")).containsText("Two more places a week");
        manager.page()
                .getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Lead physician"))
                .focus();
        manager.page().keyboard().press("Enter");
        manager.page()
                .getByRole(AriaRole.OPTION, new Page.GetByRoleOptions().setName("Dr Imogen Tarrant"))
                .click();
        press(manager, "Name as lead");
        assertThat(manager.page().locator(".lq-policy-said")).containsText("Dr Imogen Tarrant leads from now on.");
        assertThat(manager.accessibilityViolations()).isEmpty();
        picture(manager, "policy-lead");
    }

    private void queued(String name) throws IOException {
        var document = Files.readString(Path.of("demo-referrals", name + ".referral.json"));
        var staff = new Staff(actingAs);
        var entered = staff.as("coordinator", () -> referrals.enter(document));
        staff.as("coordinator", () -> referrals.submit(entered.id(), entered.version()));
    }

    private static void press(Visitor visitor, String button) {
        visitor.button(button).focus();
        visitor.page().keyboard().press("Enter");
        visitor.rest();
    }

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + ".png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }
}
