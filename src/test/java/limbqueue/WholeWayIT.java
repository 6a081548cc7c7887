package limbqueue;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.io.IOException;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

/** One referral all the way: entered by the coordinator, approved by the physician, answered, and watched by the manager. */
@InBrowser
class WholeWayIT {

    @Test
    void aReferralIsEnteredTriagedApprovedAndAnswered(Visitor coordinator, Visitor physician, Visitor manager)
            throws IOException {
        coordinator.signIn("coordinator").open("referrals");
        physician.signIn("physician");
        manager.signIn("manager");

        enter(coordinator);
        assertThat(coordinator.page().locator(".lq-proposal")).containsText("Within 14 days");
        assertThat(coordinator.page().locator(".lq-proposal")).containsText(TriageResult.NOTICE);
        coordinator.page().getByText("Put before the physician").click();
        coordinator.page().waitForURL("**/referrals");

        physician.open("queue");
        var line = physician.page().locator(".lq-queue-entry", new Page.LocatorOptions().setHasText("Thornbury"));
        assertThat(line).containsText("left 5");
        line.click();
        physician.page().waitForURL(url -> url.matches(".*/referrals/\\d+"));
        physician.rest();
        assertThat(physician.page().locator("main")).containsText("0.43");
        assertThat(physician.page().locator("main")).containsText(TriageResult.NOTICE);
        physician.button("Approve").click();
        physician.page().waitForURL(url -> url.contains("decided="));

        coordinator.open("letters");
        // Unsent letters stand in the order in which they were written.
        assertThat(letterText(coordinator, 0)).contains("Hesper Thornbury").doesNotContain("Rutherford");
        assertThat(letterText(coordinator, 1))
                .contains("Hesper Thornbury", "14 days")
                .contains("must not wait")
                .doesNotContainIgnoringCase("undisclosed", "red flag");
        coordinator
                .page()
                .locator("vaadin-button", new Page.LocatorOptions().setHasText("Mark as sent"))
                .first()
                .click();
        coordinator.rest();
        coordinator.open("letters");
        assertThat(coordinator.page().locator("vaadin-button", new Page.LocatorOptions().setHasText("Mark as sent")))
                .hasCount(1);

        manager.open("activity");
        assertThat(manager.page().locator("main")).containsText("approved");
        assertThat(manager.page().locator("main")).not().containsText("Thornbury");
        manager.open("queue");
        assertThat(manager.page().locator("main")).containsText("not for your role");
    }

    private static void enter(Visitor coordinator) {
        coordinator
                .page()
                .locator("vaadin-button", new Page.LocatorOptions().setHasText("New referral"))
                .click();
        coordinator.page().waitForURL("**/edit");
        coordinator.page().waitForSelector("lq-form lq-answer");
        coordinator.rest();
        type(coordinator, "patient.given", "Hesper");
        type(coordinator, "patient.family", "Thornbury");
        type(coordinator, "patient.born", "1948-07-19");
        type(coordinator, "referrer.name", "Dr Ansel Quaife");
        type(coordinator, "armPressures.left", "140");
        type(coordinator, "armPressures.right", "138");
        answer(coordinator, "legs.left.acute.present", "no");
        answer(coordinator, "legs.left.wound.ulcer", "shallow");
        answer(coordinator, "legs.left.wound.site", "toe");
        type(coordinator, "legs.left.wound.sinceDays", "60");
        type(coordinator, "legs.left.pressures.dorsalisPedis", "60");
        type(coordinator, "legs.left.pressures.posteriorTibial", "52");
        type(coordinator, "legs.left.pressures.toe", "30");
        coordinator.rest();
    }

    private static String letterText(Visitor visitor, int place) throws IOException {
        var link = visitor.page()
                .getByText("PDF", new Page.GetByTextOptions().setExact(true))
                .nth(place)
                .elementHandle();
        var pdf = visitor.page()
                .request()
                .get(visitor.page().evaluate("a => a.href", link).toString());
        try (var document = Loader.loadPDF(pdf.body())) {
            return new PDFTextStripper().getText(document);
        }
    }

    private static void answer(Visitor visitor, String path, String code) {
        visitor.page()
                .locator("[data-path='" + path + "'] label[data-code='" + code + "']")
                .click();
        visitor.rest();
    }

    private static void type(Visitor visitor, String path, String text) {
        visitor.page().locator("[data-path='" + path + "']").pressSequentially(text);
    }
}
