package limbqueue.samepatient.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Pairs in a browser, by keyboard. All people are invented. */
@InBrowser
class SamePatientViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Referral entered(String given, String family, String born, String phone) {
        var draft = Draft.of(Arriving.REST_PAIN);
        draft.set("patient.given", given);
        draft.set("patient.family", family);
        draft.set("patient.born", born);
        draft.set("patient.phone", phone);
        var referral = new AtomicReference<Referral>();
        actingAs.person("coordinator", () -> referral.set(referrals.enter(draft.toJson())));
        return referral.get();
    }

    private static void pressButton(Visitor visitor, String name) {
        visitor.button(name).focus();
        visitor.page().keyboard().press("Enter");
        visitor.rest();
    }

    @Test
    void aPairIsComparedMergedAndTakenApartByKeyboard(Visitor coordinator) {
        var one = entered("Hesper", "Thornbury", "1951-05-03", "01632 960311");
        var other = entered("Hesper", "Thronbury", "1951-05-03", "01632 960312");
        coordinator.signIn("coordinator").open("same-patient");
        var page = coordinator.page();
        var pair = page.locator(".lq-alike-pairs > li").filter(new Locator.FilterOptions().setHasText(other.reference()));
        assertThat(pair).containsText("name one letter apart");
        assertThat(pair).containsText("same birth date");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("same-patient-1440.png"), 1440);
        coordinator.picture(PICTURES.resolve("same-patient-1024.png"), 1024);
        pair.getByRole(AriaRole.LINK, new Locator.GetByRoleOptions().setName("Compare and merge"))
                .focus();
        page.keyboard().press("Enter");
        page.waitForURL("**/same-patient/" + one.id() + "/" + other.id());
        coordinator.rest();

        pressButton(coordinator, "Family name: second");
        assertThat(coordinator.button("Family name: second")).hasAttribute("aria-pressed", "true");
        assertThat(coordinator.button("Family name: first")).hasAttribute("aria-pressed", "false");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("same-patient-pair-1440.png"), 1440);
        coordinator.picture(PICTURES.resolve("same-patient-pair-1024.png"), 1024);
        pressButton(coordinator, "Same person: merge");
        assertThat(page.getByText("Merged: " + other.reference() + " is part of " + one.reference()))
                .isVisible();
        pressButton(coordinator, "Undo: take " + other.reference() + " out again");
        assertThat(page.locator(".lq-said")).containsText("is a referral of its own again");
        pressButton(coordinator, "Same person: merge");

        coordinator.open("referrals/" + other.id() + "/edit");
        page.waitForURL(Pattern.compile(".*/referrals/" + other.id() + "$"));
        coordinator.rest();
        assertThat(page.locator(".lq-same-person")).containsText("This referral is part of " + one.reference());
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("same-patient-part-1440.png"), 1440);
        coordinator.open("referrals/" + one.id());
        assertThat(page.locator(".lq-timeline")).containsText("made " + other.reference() + " part of this referral");
        pressButton(coordinator, "Take " + other.reference() + " out again");
        assertThat(page.locator(".lq-same-person")).hasCount(0);
        assertThat(page.locator(".lq-timeline")).containsText("took " + other.reference() + " out of this referral");
    }

    @Test
    void whileEnteringTheSamePatientIsPointedOutAndNothingIsStopped(Visitor coordinator) {
        var known = entered("Odile", "Marchbank", "1947-09-12", "01632 960411");
        var again = entered("Odile", "Marchbnak", "1947-12-09", "");
        coordinator.signIn("coordinator").open("referrals/" + again.id() + "/edit");
        var notice = coordinator.page().locator(".lq-alike");
        assertThat(notice).containsText(known.reference());
        assertThat(notice).containsText("birth date with day and month swapped");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("same-patient-entering-1440.png"), 1440);
        coordinator.picture(PICTURES.resolve("same-patient-entering-1024.png"), 1024);
        pressButton(coordinator, "Two people: keep " + known.reference() + " apart");
        assertThat(notice).isHidden();
        assertThat(coordinator.button("Put before the physician")).isEnabled();
    }

    @Test
    void twoPeopleAreKeptApartAndTheWordIsTakenBack(Visitor coordinator) {
        entered("Rafe", "Sunningdale", "1939-04-04", "");
        var other = entered("Rafe", "Sunningdale", "1939-04-05", "");
        coordinator.signIn("coordinator").open("same-patient");
        var pair = coordinator
                .page()
                .locator(".lq-alike-pairs > li")
                .filter(new Locator.FilterOptions().setHasText(other.reference()));
        pair.getByRole(AriaRole.BUTTON).focus();
        coordinator.page().keyboard().press("Enter");
        assertThat(pair).hasCount(0);
        assertThat(coordinator.button("Undo")).isFocused();
        coordinator.page().keyboard().press("Enter");
        assertThat(pair).hasCount(1);
    }

    @Test
    void aScriptInANameIsWords(Visitor coordinator) {
        entered("<img src=x onerror=document.title='run'>", "Scriptley😀", "1939-06-06", "");
        var other = entered("<img src=x onerror=document.title='run'>", "Scriptley", "1939-06-06", "");
        coordinator.signIn("coordinator").open("referrals/" + other.id() + "/edit");
        assertThat(coordinator.page().locator(".lq-alike")).containsText("Scriptley😀");
        coordinator.open("same-patient");
        assertThat(coordinator.page().locator(".lq-alike-pairs img")).hasCount(0);
        assertThat(coordinator.page()).hasTitle("Same patient? · LimbQueue");
    }

    @Test
    void aPairThatIsNoneIsNotFound(Visitor coordinator) {
        coordinator.signIn("coordinator").open("same-patient/999999/999998");
        assertThat(coordinator.page().getByRole(AriaRole.HEADING, new Page.GetByRoleOptions().setLevel(1)))
                .isVisible();
        assertThat(coordinator.page().locator(".lq-pair-table")).hasCount(0);
    }
}
