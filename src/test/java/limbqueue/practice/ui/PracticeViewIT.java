package limbqueue.practice.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;

@InBrowser
class PracticeViewIT {

    @Test
    void theLetterheadIsKeptAndTheFrameShowsTheName(Visitor manager) {
        manager.signIn("manager").open("practice");
        manager.field("Name of the practice").fill("Hollin Bridge Vascular Practice");
        manager.field("Address, one line each").fill("4 Weir Lane\nHollin Bridge");
        manager.field("Phone for urgent worsening").fill("01632 960199");
        manager.button("Save").click();
        assertThat(manager.page().getByText("The letterhead is saved.")).isVisible();
        manager.open("practice");
        assertThat(manager.field("Address, one line each")).hasValue("4 Weir Lane\nHollin Bridge");
        assertThat(manager.field("Phone for urgent worsening")).hasValue("01632 960199");
        assertThat(manager.page().textContent("header")).contains("Hollin Bridge Vascular Practice");
    }

    @Test
    void ofTwoPeopleWhoSaveTheSecondSeesBothAndLosesNothing(Visitor first, Visitor second) {
        first.signIn("manager").open("practice");
        second.signIn("manager").open("practice");
        first.field("Letters are signed by").fill("Dr Imogen Tarrant");
        first.button("Save").click();
        assertThat(first.page().getByText("The letterhead is saved.")).isVisible();

        second.field("Fax").fill("01632 960141");
        second.button("Save").click();
        assertThat(second.page().locator("[role=alert]").getByText("signed by Dr Imogen Tarrant"))
                .isVisible();
        assertThat(second.field("Fax")).hasValue("01632 960141");
        assertThat(second.accessibilityViolations()).isEmpty();
        second.picture(Path.of("target/pictures/practice-conflict.png"), 1440);

        second.button("Take theirs").click();
        assertThat(second.field("Letters are signed by")).hasValue("Dr Imogen Tarrant");
        assertThat(second.field("Fax")).hasValue("");
    }

    @Test
    void aPracticeWithoutANameIsToldAtTheField(Visitor manager) {
        manager.signIn("manager").open("practice");
        manager.field("Name of the practice").fill(" ");
        manager.button("Save").click();
        assertThat(manager.page().getByText("Letters need the practice's name."))
                .isVisible();
    }

    @Test
    void thePracticeChoosesItsEnvelopesAndALetterheadWithoutRoomIsToldAndNotKept(Visitor manager) {
        manager.signIn("manager").open("practice");
        envelopes(manager).click();
        manager.page()
                .locator("vaadin-select-item")
                .getByText("US No. 10, on US Letter")
                .click();
        assertThat(envelopes(manager)).containsText("US No. 10, on US Letter");
        manager.field("Name of the practice").fill("诊所");
        manager.button("Save").click();
        assertThat(manager.page().locator("[role=alert]").getByText("“诊所”")).isVisible();
        assertThat(manager.field("Name of the practice")).hasValue("诊所");
        manager.picture(Path.of("target/pictures/practice-envelopes.png"), 1440);
        manager.picture(Path.of("target/pictures/practice-envelopes-1024.png"), 1024);
        assertThat(manager.accessibilityViolations()).isEmpty();
        manager.field("Name of the practice").fill("Hollin Bridge Vascular Practice");
        manager.button("Save").click();
        assertThat(manager.page().getByText("The letterhead is saved.")).isVisible();
        manager.open("practice");
        assertThat(envelopes(manager)).containsText("US No. 10, on US Letter");
    }

    private static Locator envelopes(Visitor manager) {
        return manager.page()
                .locator("vaadin-select", new Page.LocatorOptions().setHasText("Envelopes with a window"))
                .locator("vaadin-select-value-button");
    }

    @Test
    void thePolicyInForceStandsBesideTheLetterhead(Visitor manager) {
        manager.signIn("manager").open("practice");
        assertThat(manager.heading("Policy in force: standard-1")).isVisible();
        assertThat(manager.page().textContent("main"))
                .contains("Within 18 weeks")
                .contains("126");
    }
}
