package limbqueue.governance.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import limbqueue.governance.ManyCourses;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

/** The page of governance in a browser. All people in it are invented. */
@InBrowser
class GovernanceViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @BeforeAll
    static void manyReferrals(@Autowired JdbcTemplate jdbc) {
        ManyCourses.add(jdbc, 900);
    }

    private static Locator link(Visitor visitor, String name) {
        return visitor.page()
                .getByRole(
                        AriaRole.LINK, new Page.GetByRoleOptions().setName(name).setExact(true));
    }

    private static void pictures(Visitor visitor, String name) {
        for (var width : new int[] {1440, 1024}) {
            visitor.page().setViewportSize(width, 900);
            visitor.rest();
            visitor.page()
                    .screenshot(new Page.ScreenshotOptions()
                            .setPath(PICTURES.resolve(name + "-" + width + ".png"))
                            .setFullPage(true));
            assertThat(visitor.page().evaluate("document.documentElement.scrollWidth <= window.innerWidth"))
                    .as("nothing is out of sight at %d", width)
                    .isEqualTo(true);
        }
        visitor.page().setViewportSize(1440, 900);
    }

    @Test
    void theManagerSeesEachPictureWithItsTableAndTakesItAway(Visitor manager) throws IOException {
        manager.signIn("manager");
        link(manager, "Governance").click();
        manager.page().waitForURL("**/governance");
        manager.rest();

        var main = manager.page().locator("main");
        assertThat(main.locator("svg[role=img]")).hasCount(6);
        assertThat(main.locator("svg[role=img] > title").allTextContents())
                .containsExactly(
                        "Agreement by tier proposed",
                        "Agreement by person",
                        "Overruled by rule",
                        "Not done as planned, by flag",
                        "Days waited, by tier",
                        "Days waited, by group");
        assertThat(manager.page().getByRole(AriaRole.IMG, new Page.GetByRoleOptions().setName("Days waited, by tier")))
                .isVisible();
        assertThat(main.locator("table.lq-figures")).hasCount(6);
        assertThat(main.locator("a.lq-csv")).hasCount(6);
        assertThat(main.innerText())
                .contains(TriageResult.NOTICE)
                .contains("Physicians agreed with ")
                .contains("[name] [name]")
                .contains("Nothing flagged");
        assertThat(manager.page().content()).doesNotContain("Wetherell");
        main.locator("details > summary").click();
        assertThat(main.locator("details table")).isVisible();
        assertThat(manager.accessibilityViolations()).isEmpty();
        pictures(manager, "governance");

        var download = manager.page()
                .waitForDownload(() -> link(manager, "Take the list of waiting times by group as CSV")
                        .click());
        download.saveAs(PICTURES.resolve("waiting-by-group.csv"));
        var rows = Files.readString(PICTURES.resolve("waiting-by-group.csv"))
                .lines()
                .skip(1)
                .toList();
        assertThat(rows).anyMatch(row -> row.startsWith("All,")).anyMatch(row -> row.startsWith("80 and over,"));
        assertThat(rows)
                .filteredOn(row -> !row.contains("not shown"))
                .allSatisfy(row -> assertThat(Integer.parseInt(
                                Arrays.asList(row.split(",(?! )")).get(1)))
                        .satisfiesAnyOf(
                                count -> assertThat(count).isZero(),
                                count -> assertThat(count).isGreaterThanOrEqualTo(10)));
    }

    @Test
    void thePhysicianChoosesThePeriodByKeyboard(Visitor physician) {
        physician.signIn("physician").open("governance");
        var says = physician.page().locator(".lq-figure-says");
        var lastYear = says.innerText();

        typed(physician, "From", "02/03/2000");
        typed(physician, "To", "01/03/2000");
        physician.page().keyboard().press("Tab");
        physician.button("Show").focus();
        physician.page().keyboard().press("Enter");
        assertThat(physician.page().getByRole(AriaRole.ALERT))
                .hasText("The first day lies after the last. Choose a first day up to 1 Mar 2000.");
        assertThat(says).hasText(lastYear);

        typed(physician, "From", "01/02/2000");
        physician.button("Show").focus();
        physician.page().keyboard().press("Enter");
        physician.page().waitForURL("**/governance?**from=2000-02-01**");
        physician.rest();
        assertThat(physician.page().locator(".lq-nothing")).hasCount(5);
        assertThat(physician.page().locator("svg[role=img]")).hasCount(0);
        assertThat(physician.accessibilityViolations()).isEmpty();
        pictures(physician, "governance-nothing");

        physician.open("governance?from=soon&to=2026-02-31");
        assertThat(says).hasText(lastYear);
    }

    private static void typed(Visitor visitor, String label, String day) {
        visitor.field(label).fill(day);
        visitor.page().keyboard().press("Tab");
        visitor.rest();
    }
}
