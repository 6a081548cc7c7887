package limbqueue.csv.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.FilePayload;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;

/** A table brought in through the browser. All people are invented. */
@InBrowser
class CsvImportViewIT {

    private static final Path PICTURES = Path.of("target/pictures");
    private static final LocatorAssertions.ContainsTextOptions PATIENTLY =
            new LocatorAssertions.ContainsTextOptions().setTimeout(60_000);

    private static void choose(Visitor coordinator, String name, String content) {
        coordinator.signIn("coordinator").open("intake/csv");
        coordinator
                .page()
                .locator("vaadin-upload input[type=file]")
                .setInputFiles(new FilePayload(name, "text/csv", content.getBytes(StandardCharsets.ISO_8859_1)));
    }

    private static void press(Visitor coordinator, String name) {
        coordinator.button(name).focus();
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
    }

    @Test
    void aTableIsTriedThenImportedAndFound(Visitor coordinator) throws IOException {
        choose(coordinator, "waiting list.csv", """
                Surname;First name;DOB;ABI left;Reason
                Hollowell;Zoë;03.05.1951;0,62;"cold; numb"
                Hollowell;<b>Bram</b>;04.06.1949;high;=cmd|x
                Too;few
                """);
        coordinator.page().waitForURL("**/intake/csv/*");
        coordinator.rest();
        var page = coordinator.page();
        assertThat(page.locator(".lq-csv-facts"))
                .hasText("3 rows, 5 columns, separated by semicolons, written in Windows-1252 (Latin-1).");
        assertThat(page.locator("main")).containsText("The dates in this table can be read in two ways.");
        assertThat(page.locator("main")).containsText("03.05.1951 is 3 May 1951");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("csv-columns-1440.png"), 1440);
        press(coordinator, "Try it");
        assertThat(page.locator(".lq-csv-report")).containsText("Say first how dates are written in this table.");
        page.getByRole(AriaRole.RADIO, new Page.GetByRoleOptions().setName("day, month, year"))
                .focus();
        page.keyboard().press("Space");
        coordinator.rest();
        press(coordinator, "Try it");
        assertThat(page.locator(".lq-csv-report"))
                .containsText(
                        "2 rows would become referrals to complete, 1 of them with something to mend; 1 row cannot be read");
        assertThat(page.locator(".lq-csv-problems")).containsText("“high” is no number");
        assertThat(page.locator(".lq-csv-problems")).containsText("The row has 2 cells, the header 5.");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("csv-tried-1440.png"), 1440);
        coordinator.picture(PICTURES.resolve("csv-tried-1024.png"), 1024);
        var download = page.waitForDownload(() -> page.locator(".lq-csv").click());
        download.saveAs(PICTURES.resolve("problems.csv"));
        assertThat(Files.readString(PICTURES.resolve("problems.csv"))).contains("3,ABI left,high,");

        press(coordinator, "Import 2 rows");
        assertThat(page.locator("main")).containsText("Done: 2 imported, 1 left out.", PATIENTLY);
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("csv-done-1440.png"), 1440);

        coordinator.open("referrals");
        assertThat(page.locator("vaadin-grid")).containsText("Hollowell, <b>Bram</b>");
        var list = page.waitForDownload(() -> page.locator(".lq-csv").click());
        list.saveAs(PICTURES.resolve("referrals.csv"));
        assertThat(Files.readString(PICTURES.resolve("referrals.csv")))
                .startsWith("\uFEFFReference,Patient,")
                .contains("\"Hollowell, Zoë\"");
        coordinator.picture(PICTURES.resolve("referrals-list-1024.png"), 1024);
        coordinator.picture(PICTURES.resolve("referrals-list-1440.png"), 1440);
    }

    @Test
    void aFileThatIsNoTableIsRefusedInWords(Visitor coordinator) {
        choose(coordinator, "table.xlsx", "PK\u0003\u0004rest");
        Locator refused = coordinator.page().locator(".lq-form-error");
        assertThat(refused).containsText("Open it there and save it as CSV.");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("csv-refused-1024.png"), 1024);
    }

    @Test
    void manyRowsShowHowFarTheyHaveComeAndCanBeStopped(Visitor coordinator) {
        var rows = new StringBuilder("Surname,First name\n");
        for (var i = 0; i < 4000; i++) {
            rows.append("Longlist,N").append(i).append('\n');
        }
        choose(coordinator, "long.csv", rows.toString());
        coordinator.page().waitForURL("**/intake/csv/*");
        coordinator.rest();
        press(coordinator, "Try it");
        press(coordinator, "Import 4,000 rows");
        assertThat(coordinator.page().locator(".lq-csv-progress")).containsText("of 4,000 rows");
        coordinator.button("Stop").click();
        assertThat(coordinator.page().locator("main")).containsText("Stopped:", PATIENTLY);
        assertThat(coordinator.button("Go on")).isVisible();
    }

    @Test
    void whoSeesThePracticeOnlyImportsNothing(Visitor manager) {
        manager.signIn("manager").open("intake/csv");
        assertThat(manager.page().locator("vaadin-upload")).hasCount(0);
    }
}
