package limbqueue.letter.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The words of letters edited, checked, tried on a referral, published and put back, in a browser. */
@InBrowser
class LetterWordsViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Test
    void wordsAreEditedCheckedTriedPublishedAndPutBack(Visitor coordinator, Visitor manager) {
        queued();
        coordinator.signIn("coordinator").open("letters");
        coordinator.page().getByRole(AriaRole.LINK, named("Words of letters")).click();
        coordinator.page().waitForURL("**/letters/words");
        choose(coordinator, "Letter", "Returned");
        var main = coordinator.page().locator("main");
        assertThat(main).containsText("The shipped words count.");
        assertThat(main).containsText("{{#words}}, a line “- {{item}}”, {{/words}}");
        var letter = coordinator.page().locator(".lq-words-preview .lq-letter-text");
        assertThat(letter).containsText("Thank you for referring your patient.");

        // What is wrong is told with its line, and what was typed stays.
        var field = coordinator.page().locator(".lq-words-text textarea");
        var shipped = field.inputValue();
        type(coordinator, field, shipped + "\nGreetings to {{wife}}.\n");
        var problems = coordinator.page().getByRole(AriaRole.ALERT).filter(having("This letter knows no {{wife}}"));
        assertThat(problems).isVisible();
        assertThat(problems).containsText("Line " + (shipped.split("\n", -1).length + 1) + ":");
        assertThat(letter).containsText("Mend the words first.");
        press(coordinator, "Publish…");
        assertThat(coordinator.page().locator("vaadin-dialog[opened]")).hasCount(0);
        picture(coordinator, "letter-words-wrong");
        coordinator.open("letters");
        coordinator.open("letters/words");
        choose(coordinator, "Letter", "Returned");
        assertThat(field).hasValue(shipped + "\nGreetings to {{wife}}.\n");

        // Right again, tried on a referral, published with the keyboard.
        type(coordinator, field, shipped + "\nWith our thanks for your patience.\n");
        assertThat(problems).hasCount(0);
        coordinator.field("Try it on").fill("Ångström");
        coordinator
                .page()
                .getByRole(AriaRole.OPTION)
                .filter(having("Ångström-Łuczak"))
                .first()
                .click();
        coordinator.rest();
        assertThat(letter).containsText("Thank you for referring Zoë Ångström-Łuczak.");
        assertThat(letter).containsText("With our thanks for your patience.");
        assertThat(letter).containsText("must not wait for the queue");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        picture(coordinator, "letter-words");
        press(coordinator, "Publish…");
        var dialog = coordinator.page().locator("vaadin-dialog[opened]");
        assertThat(dialog).containsText("Those written before stay as they are.");
        dialog.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Publish"))
                .focus();
        coordinator.page().keyboard().press("Enter");
        assertThat(main).containsText("Version 1 of “Returned” is published.");
        assertThat(main).containsText("Version 1 counts, by Wren Halloway");

        // The manager reads no referral, and puts the shipped words back.
        manager.signIn("manager").open("practice");
        manager.page().getByRole(AriaRole.LINK, named("Words of letters")).click();
        manager.page().waitForURL("**/letters/words");
        choose(manager, "Letter", "Returned");
        assertThat(manager.page().locator("main")).containsText("Version 1 counts, by Wren Halloway");
        assertThat(manager.page().getByLabel("Try it on")).hasCount(0);
        press(manager, "Back to the shipped words…");
        manager.page()
                .locator("vaadin-dialog[opened]")
                .getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Go back"))
                .click();
        assertThat(manager.page().locator("main")).containsText("The shipped words count again, since version 2");
        assertThat(manager.page().locator(".lq-words-history")).containsText("Read version 1");
        choose(manager, "Language", "Español");
        assertThat(manager.page().locator(".lq-words-preview .lq-letter-text"))
                .containsText("Gracias por derivarnos a su paciente.");
        assertThat(manager.accessibilityViolations()).isEmpty();
        picture(manager, "letter-words-history");

        // What the other published meanwhile is not overwritten unseen.
        type(coordinator, field, shipped + "\nAnother end.\n");
        press(coordinator, "Publish…");
        dialog.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Publish"))
                .click();
        assertThat(dialog).containsText("has published other words. Yours are still in the field.");
        assertThat(field).hasValue(shipped + "\nAnother end.\n");
    }

    private void queued() {
        var staff = new Staff(actingAs);
        var entered = staff.as("coordinator", () -> referrals.enter(Arriving.REST_PAIN));
        staff.as("coordinator", () -> referrals.submit(entered.id(), entered.version()));
    }

    private static void type(Visitor visitor, Locator field, String text) {
        field.fill(text);
        visitor.page().keyboard().press("Tab");
        visitor.rest();
    }

    private static void choose(Visitor visitor, String label, String option) {
        visitor.page()
                .getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions().setName(label).setExact(false))
                .first()
                .focus();
        visitor.page().keyboard().press("Enter");
        visitor.page()
                .getByRole(
                        AriaRole.OPTION,
                        new Page.GetByRoleOptions().setName(option).setExact(true))
                .click();
        visitor.rest();
    }

    private static Page.GetByRoleOptions named(String name) {
        return new Page.GetByRoleOptions().setName(name);
    }

    private static Locator.FilterOptions having(String text) {
        return new Locator.FilterOptions().setHasText(text);
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
