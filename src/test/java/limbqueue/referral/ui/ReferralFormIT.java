package limbqueue.referral.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.Test;

@InBrowser
class ReferralFormIT {

    @Test
    void theProposalFollowsTheFactsAsTheyAreTyped(Visitor coordinator) {
        begin(coordinator);
        assertThat(proposal(coordinator)).containsText("Advice only");
        assertThat(proposal(coordinator)).containsText(TriageResult.NOTICE);

        answer(coordinator, "legs.left.wound.ulcer", "shallow");
        type(coordinator, "legs.left.wound.sinceDays", "30");
        assertThat(proposal(coordinator)).containsText("Within 14 days");

        answer(coordinator, "legs.right.acute.present", "yes");
        answer(coordinator, "legs.right.acute.cold", "yes");
        assertThat(proposal(coordinator)).containsText("Same day");
        assertThat(proposal(coordinator)).containsText("right leg, cold: yes");
        assertThat(proposal(coordinator)).not().containsText("{");
        coordinator.picture(Path.of("target/pictures/form-proposal.png"), 1440);
        coordinator.picture(Path.of("target/pictures/form-proposal-1024.png"), 1024);

        answer(coordinator, "legs.right.acute.present", "no");
        answer(coordinator, "legs.right.acute.cold", "unknown");
        assertThat(proposal(coordinator)).containsText("Within 14 days");
    }

    @Test
    void whatCannotBeRightIsToldAtTheFieldAndKeptAsTyped(Visitor coordinator) {
        begin(coordinator);
        var ankle = "legs.left.pressures.dorsalisPedis";
        type(coordinator, ankle, "900");
        assertThat(told(coordinator, ankle)).containsText("900");
        assertThat(field(coordinator, ankle)).hasAttribute("aria-invalid", "true");
        type(coordinator, "legs.left.pressures.toe", "9oo");
        type(coordinator, "legs.right.abi", "57");
        type(coordinator, "patient.born", "2/3/26");
        assertThat(coordinator.page().locator(".lq-mend li")).hasCount(4);
        coordinator.page().getByText("right leg, reported ABI").click();
        coordinator.rest();
        assertThat(field(coordinator, "legs.right.abi")).isFocused();
        saved(coordinator);
        coordinator.picture(Path.of("target/pictures/form-bad-input.png"), 1440);

        coordinator.open(coordinator.place());
        assertThat(field(coordinator, ankle)).hasValue("900");
        assertThat(field(coordinator, "legs.left.pressures.toe")).hasValue("9oo");
        assertThat(field(coordinator, "legs.right.abi")).hasValue("57");
        assertThat(field(coordinator, "patient.born")).hasValue("2/3/26");
        assertThat(told(coordinator, "patient.born")).isVisible();

        coordinator.page().getByText("Put before the physician").click();
        coordinator.rest();
        assertThat(coordinator.place()).endsWith("/edit");
        assertThat(field(coordinator, "patient.born")).isFocused();
    }

    @Test
    void answersThatDoNotGoTogetherAreShownAtEachOfThem(Visitor coordinator) {
        begin(coordinator);
        answer(coordinator, "legs.left.wound.ulcer", "none");
        answer(coordinator, "legs.left.wound.exposes", "calcaneus");
        assertThat(told(coordinator, "legs.left.wound.ulcer")).isVisible();
        assertThat(told(coordinator, "legs.left.wound.exposes")).isVisible();
        assertThat(proposal(coordinator)).containsText("1 contradiction");
    }

    @Test
    void theKeyboardAnswersAndEnterGoesOnWithoutSending(Visitor coordinator) {
        begin(coordinator);
        var page = coordinator.page();
        page.locator("lq-answer[data-path='history.diabetes'] input:checked").focus();
        // A letter that means one answer goes on by itself.
        page.keyboard().press("y");
        assertThat(checked(coordinator, "history.diabetes", "yes")).hasCount(1);
        assertThat(checked(coordinator, "history.dialysis", "unknown")).isFocused();
        page.keyboard().press("Enter");
        assertThat(checked(coordinator, "history.smoking", "unknown")).isFocused();
        page.keyboard().press("Shift+Enter");
        assertThat(checked(coordinator, "history.dialysis", "unknown")).isFocused();
        page.keyboard().press("n");
        assertThat(checked(coordinator, "history.smoking", "unknown")).isFocused();
        page.keyboard().press("Shift+Enter");
        assertThat(checked(coordinator, "history.dialysis", "no")).isFocused();
        page.keyboard().press("?");
        assertThat(checked(coordinator, "history.dialysis", "unknown")).isFocused();
        page.keyboard().press("ArrowRight");
        assertThat(checked(coordinator, "history.dialysis", "yes")).isFocused();
        // One that can mean two stays, for the second to be chosen.
        page.locator("lq-answer[data-path='legs.left.claudication.course'] input:checked")
                .focus();
        page.keyboard().press("s");
        assertThat(checked(coordinator, "legs.left.claudication.course", "stable"))
                .isFocused();
        page.keyboard().press("s");
        assertThat(checked(coordinator, "legs.left.claudication.course", "sudden"))
                .isFocused();
        page.keyboard().press("F8");
        assertThat(field(coordinator, "armPressures.right")).isFocused();
        coordinator.rest();
        assertThat(coordinator.place()).endsWith("/edit");
        saved(coordinator);
        coordinator.open(coordinator.place());
        assertThat(checked(coordinator, "history.diabetes", "yes")).hasCount(1);
        assertThat(checked(coordinator, "history.dialysis", "yes")).hasCount(1);
    }

    @Test
    void aLesionIsClassifiedAsItIsTyped(Visitor coordinator) {
        begin(coordinator);
        coordinator.button("Add lesion").click();
        type(coordinator, "lesions[0].stenosisPercent", "100");
        assertThat(proposal(coordinator)).not().containsText("TASC II");
        field(coordinator, "lesions[0].segment").locator("select").selectOption("superficialFemoral");
        answer(coordinator, "lesions[0].side", "left");

        assertThat(proposal(coordinator)).containsText("type D");
        assertThat(proposal(coordinator)).containsText("possible: A to D");
        assertThat(proposal(coordinator)).containsText("GLASS, from secondary copies");

        type(coordinator, "lesions[0].lengthMm", "90");
        assertThat(proposal(coordinator)).containsText("TASC II type B: a single occlusion of middle length.");
        coordinator.picture(Path.of("target/pictures/form-anatomy.png"), 1440);
        coordinator.picture(Path.of("target/pictures/form-anatomy-1024.png"), 1024);
    }

    @Test
    void aListIsUnknownUntilItIsAnsweredWithNoneOrWithEntries(Visitor coordinator) {
        begin(coordinator);
        var page = coordinator.page();
        var medicines = page.locator("[id='field-medicines']");
        medicines.locator("label[data-code='none']").click();
        saved(coordinator);
        coordinator.open(coordinator.place());
        assertThat(medicines.locator("label[data-code='none'] input")).isChecked();

        coordinator.button("Add medicine").click();
        type(coordinator, "medicines[0].name", "metformin");
        coordinator.button("Add medicine").click();
        type(coordinator, "medicines[1].name", "apixaban");
        coordinator.button("Remove medicine 1").click();
        coordinator.rest();
        assertThat(field(coordinator, "medicines[0].name")).hasValue("apixaban");
        coordinator.button("Remove medicine 1").click();
        coordinator.rest();
        assertThat(medicines.locator("label[data-code='unknown'] input")).isChecked();
    }

    @Test
    void twoPeopleWhoSaveTheSameReferralSeeBothVersionsAndLoseNothing(Visitor first, Visitor second) {
        begin(first);
        second.signIn("physician").open(first.place());
        type(first, "patient.family", "Aldermoor");
        type(first, "legs.left.pressures.toe", "30");
        saved(first);

        type(second, "patient.given", "Tobias");
        type(second, "legs.left.pressures.toe", "55");
        var dialog = second.page().locator("vaadin-dialog");
        assertThat(dialog.locator(".lq-versions tbody tr")).hasCount(3);
        assertThat(dialog).containsText("left leg, toe pressure");
        assertThat(dialog).containsText("30 mmHg");
        assertThat(dialog).containsText("55 mmHg");
        second.picture(Path.of("target/pictures/form-conflict.png"), 1440);
        second.picture(Path.of("target/pictures/form-conflict-1024.png"), 1024);
        second.page().getByText("Keep these and save").click();
        second.rest();
        saved(second);

        second.open(second.place());
        assertThat(field(second, "patient.family")).hasValue("Aldermoor");
        assertThat(field(second, "patient.given")).hasValue("Tobias");
        assertThat(field(second, "legs.left.pressures.toe")).hasValue("55");
    }

    @Test
    void aSubmittedReferralIsWithThePhysicianAndItsLetterCanBeSent(Visitor coordinator) {
        begin(coordinator);
        type(coordinator, "patient.family", "Brackenrigg");
        type(coordinator, "referrer.name", "Dr Maud Ferrier");
        answer(coordinator, "legs.left.restPain.present", "yes");
        coordinator.page().getByText("Put before the physician").click();
        coordinator.page().waitForURL("**/referrals");
        coordinator.rest();
        assertThat(coordinator.page().locator("vaadin-notification-card")).containsText("before the physician");
        assertThat(coordinator.page().locator("vaadin-grid")).containsText("With the physician");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(Path.of("target/pictures/referrals.png"), 1440);
        coordinator.picture(Path.of("target/pictures/referrals-1024.png"), 1024);
        coordinator.page().locator("vaadin-text-field input").fill("nobody of this name");
        assertThat(coordinator.page().getByText("No referral here with")).isVisible();

        coordinator.open("letters");
        assertThat(coordinator.page().getByText("letter to send")).isVisible();
        coordinator.picture(Path.of("target/pictures/letters.png"), 1440);
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        var pdf = coordinator.page().getByText("PDF", new Page.GetByTextOptions().setExact(true));
        var fetched = coordinator
                .page()
                .request()
                .get(coordinator
                        .page()
                        .evaluate("a => a.href", pdf.elementHandle())
                        .toString());
        assertThat(fetched.headers().get("content-type")).contains("application/pdf");
        assertThat(new String(fetched.body(), 0, 5, java.nio.charset.StandardCharsets.US_ASCII))
                .isEqualTo("%PDF-");
        coordinator
                .page()
                .getByText("Text", new Page.GetByTextOptions().setExact(true))
                .click();
        assertThat(coordinator.page().locator(".lq-letter-text")).containsText("Brackenrigg");
        coordinator.picture(Path.of("target/pictures/letter-text.png"), 1440);
        coordinator.button("Close").click();
        coordinator.button("Mark the letter about Brackenrigg as sent").click();
        assertThat(coordinator.page().getByText("All letters are sent")).isVisible();
    }

    @Test
    void theFormCanBeUsedByEverybody(Visitor coordinator) {
        begin(coordinator);
        coordinator.button("Add procedure").click();
        type(coordinator, "legs.left.abi", "57");
        coordinator.rest();
        coordinator.picture(Path.of("target/pictures/form.png"), 1440);
        coordinator.picture(Path.of("target/pictures/form-1024.png"), 1024);
        assertThat(coordinator.accessibilityViolations()).isEmpty();
    }

    @Test
    void theHeadCoversNothingOfTheProposalInANarrowWindow(Visitor coordinator) {
        begin(coordinator);
        type(coordinator, "patient.family", "Featherstonehaugh-Cholmondeley");
        type(coordinator, "patient.given", "Wilhelmina Persephone");
        saved(coordinator);
        var page = coordinator.page();
        page.setViewportSize(1024, 768);
        field(coordinator, "legs.left.pressures.toe").scrollIntoViewIfNeeded();
        coordinator.rest();
        var head = page.locator(".lq-form-head").boundingBox();
        for (var below : new String[] {".lq-proposal-range", ".lq-sections a, .lq-sections button"}) {
            assertThat(page.locator(below).first().boundingBox().y)
                    .as(below)
                    .isGreaterThanOrEqualTo(head.y + head.height);
        }
    }

    @Test
    void aManagerHasNoReferrals(Visitor manager) {
        manager.signIn("manager").open("referrals");
        assertThat(manager.page().locator(".lq-list-view")).hasCount(0);
    }

    private static void begin(Visitor visitor) {
        visitor.signIn("coordinator").open("referrals");
        visitor.page()
                .locator("vaadin-button", new Page.LocatorOptions().setHasText("New referral"))
                .click();
        visitor.page().waitForURL("**/edit");
        visitor.page().waitForSelector("lq-form lq-answer");
        visitor.rest();
    }

    private static Locator proposal(Visitor visitor) {
        return visitor.page().locator(".lq-proposal");
    }

    private static Locator field(Visitor visitor, String path) {
        return visitor.page().locator("[data-path='" + path + "']");
    }

    private static Locator checked(Visitor visitor, String path, String code) {
        return field(visitor, path).locator("label[data-code='" + code + "'] input:checked");
    }

    private static Locator told(Visitor visitor, String path) {
        return visitor.page().locator("[id='" + FieldCell.idOf(path) + "-told']");
    }

    private static void answer(Visitor visitor, String path, String code) {
        field(visitor, path).locator("label[data-code='" + code + "']").click();
        visitor.rest();
    }

    private static void type(Visitor visitor, String path, String text) {
        field(visitor, path).fill("");
        field(visitor, path).pressSequentially(text);
    }

    /** Waits until what was typed is on the server, and kept there. */
    private static void saved(Visitor visitor) {
        visitor.page().waitForTimeout(LineField.SETTLED_AFTER_MS + 100);
        visitor.rest();
        assertThat(visitor.page().locator(".lq-save-line")).containsText("Saved ");
    }
}
