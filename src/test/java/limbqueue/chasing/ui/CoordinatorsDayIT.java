package limbqueue.chasing.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.chasing.Chasing;
import limbqueue.chasing.PhoneCall.Kind;
import limbqueue.chasing.PhoneCall.Outcome;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The worklists, and what is asked of others, in a browser. All people and places in it are invented. */
@InBrowser
class CoordinatorsDayIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private Chasing chasing;

    @Autowired
    private ActingAs actingAs;

    @Test
    void recordsAreAskedForRemindedOfAndHeldFromTheKeyboardAlone(Visitor coordinator) {
        var id = queued("Penhallow", angiogramElsewhere());
        coordinator.signIn("coordinator");
        assertThat(coordinator.place()).isEqualTo("work");
        coordinator.page().keyboard().press("4");
        coordinator.page().waitForURL("**/work?list=physician");
        coordinator.rest();
        assertThat(line(coordinator, "Penhallow")).containsText("The physician decides");
        openFromTheKeyboard(coordinator, "Penhallow");
        coordinator.page().waitForURL("**/referrals/" + id);
        coordinator.rest();
        press(
                coordinator,
                coordinator.page().getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Records and calls")));
        coordinator.page().waitForURL("**/chasing");
        coordinator.rest();
        assertThat(coordinator.page().locator("main")).containsText(TriageResult.NOTICE);
        assertAccessible(coordinator);

        press(
                coordinator,
                coordinator
                        .page()
                        .getByRole(AriaRole.BUTTON, new Page.GetByRoleOptions().setName("Ask for records: angiogram")));
        assertThat(dialog(coordinator).getByLabel("Hospital")).isFocused();
        assertThat(dialog(coordinator).getByLabel("Hospital")).hasValue("Marrow Point General");
        assertAccessible(coordinator);
        pressInDialog(coordinator, "Write the letter");
        assertThat(said(coordinator)).containsText("The letter to Marrow Point General is written.");
        assertThat(request(coordinator)).containsText("Waiting for the report and images; second letter in 7 days");

        pressButton(coordinator, "Second letter: angiogram");
        assertThat(request(coordinator)).containsText("third letter in 4 days");
        pressButton(coordinator, "First letter");
        assertThat(dialog(coordinator)).containsText("Request for records");
        pressInDialog(coordinator, "Close");
        assertThat(coordinator.page().locator("vaadin-dialog[opened]")).hasCount(0);
        picture(coordinator, "chasing");

        pressButton(coordinator, "Report and images came");
        assertThat(said(coordinator)).containsText("Report and images are in. Proposed as before");
        assertThat(request(coordinator)).containsText("Report came on ");
        var document = Draft.of(office(() -> referrals.get(id)).document());
        assertThat(document.get("procedures[0].reportHeld").orElseThrow().booleanValue())
                .isTrue();
        assertAccessible(coordinator);
    }

    @Test
    void aPatientWhoIsWorseIsTriagedAtOnceAndThePhysicianIsCalled(Visitor coordinator) {
        var id = queued("Rosewarne", restPain(4));
        coordinator.signIn("coordinator").open("work?list=to-call");
        assertThat(line(coordinator, "Rosewarne")).containsText("Call the patient: how is the leg?");
        openFromTheKeyboard(coordinator, "Rosewarne");
        coordinator.page().waitForURL("**/referrals/" + id + "/chasing");
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-calling")).containsText("1 day late");

        pressButton(coordinator, "Worse: new symptoms");
        var dialog = dialog(coordinator);
        pressInDialog(coordinator, "Enter and triage");
        assertThat(dialog).containsText("Say which leg it is.");
        dialog.getByLabel("What was said").fill("The foot is cold since noon.");
        dialog.getByLabel("Left").check();
        dialog.getByLabel("Suddenly painful, pale, cold, numb or weak").check();
        dialog.getByLabel("Cold", new Locator.GetByLabelOptions().setExact(true))
                .check();
        assertAccessible(coordinator);
        picture(coordinator, "new-symptoms");
        pressInDialog(coordinator, "Enter and triage");

        assertThat(said(coordinator)).containsText("now it is the same day");
        assertThat(said(coordinator)).containsText("Same day means hospital now: call a physician at once.");
        assertThat(coordinator.page().locator(".lq-proposed")).containsText("send to hospital now");
        assertThat(coordinator.page().locator(".lq-log")).containsText("Safety call: worse");
        assertAccessible(coordinator);
        picture(coordinator, "chasing-worse");
        coordinator.open("work?list=physician");
        assertThat(line(coordinator, "Rosewarne")).containsText("Call the physician now: same day is proposed");
    }

    @Test
    void anotherPersonsCallShowsOnTheOpenPageAndTakesTheLineAway(Visitor coordinator, Visitor physician) {
        var id = queued("Trevanion", restPain(5));
        coordinator.signIn("coordinator").open("referrals/" + id + "/chasing");
        physician.signIn("physician").open("work?list=to-call");
        assertThat(line(physician, "Trevanion")).hasCount(1);

        office(() -> chasing.noteCall(
                id,
                Kind.SAFETY,
                Optional.empty(),
                Optional.of(Outcome.UNCHANGED),
                "the patient",
                "Sleeps well.",
                Optional.empty()));

        assertThat(coordinator.page().locator(".lq-log")).containsText("Sleeps well.");
        assertThat(line(physician, "Trevanion")).hasCount(0);
    }

    @Test
    void whoReadsALineStaysOnItWhileOthersComeAndGo(Visitor coordinator) {
        queued("Angwin", restPain(1));
        coordinator.signIn("coordinator").open("work?list=physician");
        line(coordinator, "Angwin").focus();

        queued("Bosanko", restPain(20));
        assertThat(line(coordinator, "Bosanko")).hasCount(1);
        assertThat(line(coordinator, "Angwin")).isFocused();
    }

    @Test
    void theListsAreShownAccessibleAtBothWidths(Visitor coordinator) {
        for (var family : new String[] {"Carlyon", "Dungey", "Eddy"}) {
            queued(family, restPain(11));
        }
        office(() -> referrals.enter(named("Fiddick", restPain(2)).toJson()));
        coordinator.signIn("coordinator");
        assertThat(line(coordinator, "Fiddick")).containsText("Ask: ");
        assertAccessible(coordinator);
        picture(coordinator, "work");
        coordinator.page().keyboard().press("7");
        coordinator.page().waitForURL("**/work?list=late");
        coordinator.rest();
        assertThat(line(coordinator, "Carlyon")).containsText("in 3 days");
        assertAccessible(coordinator);
        picture(coordinator, "work-late");
    }

    @Test
    void daysAreReadByTheOfficeAndSetByTheManager(Visitor coordinator, Visitor manager) {
        coordinator.signIn("coordinator").open("reminders");
        assertThat(coordinator.page().locator("main")).containsText("A physician or the manager sets them.");
        assertThat(coordinator.button("Set these days")).hasCount(0);
        assertAccessible(coordinator);

        manager.signIn("manager").open("reminders");
        manager.field("After a second letter, days").fill("5");
        manager.button("Set these days").click();
        manager.rest();
        assertThat(manager.page().locator(".lq-form-error")).containsText("Say why the days change");
        assertAccessible(manager);
        manager.field("Why the days change").fill("Letters take longer here.");
        manager.button("Set these days").click();
        manager.rest();
        assertThat(manager.page().locator("main")).containsText("7, 5 and 3 days for an answer");
        picture(manager, "reminders");
        manager.field("After a second letter, days").fill("4");
        manager.field("Why the days change").fill("As before.");
        manager.button("Set these days").click();
        assertThat(manager.page().locator(".lq-calls li").first()).containsText("7, 4 and 3 days");
    }

    private static Locator line(Visitor visitor, String patient) {
        return visitor.page().locator(".lq-work-line", new Page.LocatorOptions().setHasText(patient));
    }

    private static Locator request(Visitor visitor) {
        return visitor.page().locator(".lq-request");
    }

    private static Locator said(Visitor visitor) {
        return visitor.page().locator(".lq-said");
    }

    private static Locator dialog(Visitor visitor) {
        return visitor.page().locator("vaadin-dialog[opened]");
    }

    /** Moves down the list with j until the line has the focus, and opens it. */
    private static void openFromTheKeyboard(Visitor visitor, String patient) {
        var lines = visitor.page().locator(".lq-work-line").count();
        for (var step = 0; step < lines; step++) {
            visitor.page().keyboard().press("j");
            if (focused(line(visitor, patient))) {
                visitor.page().keyboard().press("Enter");
                return;
            }
        }
        throw new AssertionError("j does not reach " + patient);
    }

    /** Goes to it with Tab, as somebody without a mouse does, and presses Enter. */
    private static void press(Visitor visitor, Locator target) {
        assertThat(target.first()).isVisible();
        for (var step = 0; step < 150; step++) {
            visitor.page().keyboard().press("Tab");
            if (focused(target.first())) {
                visitor.page().keyboard().press("Enter");
                visitor.rest();
                return;
            }
        }
        throw new AssertionError("Tab does not reach " + target);
    }

    private static void pressButton(Visitor visitor, String name) {
        press(
                visitor,
                visitor.page()
                        .locator("main")
                        .getByRole(
                                AriaRole.BUTTON, new Locator.GetByRoleOptions().setName(Pattern.compile("^" + name))));
    }

    private static void pressInDialog(Visitor visitor, String name) {
        press(
                visitor,
                dialog(visitor)
                        .getByRole(
                                AriaRole.BUTTON,
                                new Locator.GetByRoleOptions().setName(name).setExact(true)));
    }

    private static boolean focused(Locator target) {
        return (boolean)
                target.evaluate("one => one === document.activeElement || one.contains(document.activeElement)");
    }

    private long queued(String family, Draft document) {
        var entered = office(() -> referrals.enter(named(family, document).toJson()));
        return office(() -> submitted(entered)).id();
    }

    private Referral submitted(Referral entered) {
        return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
    }

    private static Draft named(String family, Draft document) {
        document.set("patient.given", "Morwenna");
        document.set("patient.family", family);
        document.set("patient.phone", "01632 960777");
        return document;
    }

    private static Draft restPain(int daysAgo) {
        var document = Draft.of(Arriving.REST_PAIN);
        document.set(
                "received",
                LocalDate.now(ZoneId.systemDefault()).minusDays(daysAgo).toString());
        return document;
    }

    private static Draft angiogramElsewhere() {
        var document = restPain(0);
        document.set("procedures[0].kind", "angiogram");
        document.set("procedures[0].side", "left");
        document.set("procedures[0].date", "2026-01-20");
        document.set("procedures[0].where", "Marrow Point General");
        return document;
    }

    private <T> T office(Callable<T> work) {
        var result = new AtomicReference<T>();
        actingAs.person("coordinator", () -> {
            try {
                result.set(work.call());
            } catch (RuntimeException failed) {
                throw failed;
            } catch (Exception failed) {
                throw new IllegalStateException(failed);
            }
        });
        return result.get();
    }

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + ".png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }

    /** The framework's own status messages stand outside every landmark, on every page; they are not of this one. */
    private static void assertAccessible(Visitor visitor) {
        assertThat(visitor.accessibilityViolations())
                .filteredOn(line -> !line.contains("v-status-message") && !line.contains("vaadin-connection-indicator"))
                .isEmpty();
    }
}
