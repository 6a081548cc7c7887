package limbqueue.directory;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import limbqueue.access.ActingAs;
import limbqueue.document.DocumentFormat;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** All people and places are invented. */
@InBrowser
class DirectoryViewIT {

    private static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    @Autowired
    private Directory directory;

    @Autowired
    private ActingAs actingAs;

    @Test
    void anEntryIsFoundCorrectedAndMerged(Visitor coordinator) {
        takeIn("Dr Maud Ferrier", "0555 01 2200");
        takeIn("Dr M Ferrier", "0555 01 2200");
        takeIn("Dr Ivo Fernsby", "0555 01 3300");
        coordinator.signIn("coordinator").open("directory");
        var page = coordinator.page();
        assertThat(page.locator("vaadin-grid").last()).containsText("Fellgate Infirmary");
        coordinator.picture(Path.of("target/pictures/directory.png"), 1440);
        coordinator.picture(Path.of("target/pictures/directory-1024.png"), 1024);

        coordinator.button("Correct or merge Dr Ivo Fernsby").click();
        coordinator.rest();
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(Path.of("target/pictures/directory-entry.png"), 1440);
        coordinator.field("Name").fill("Dr Maud Ferrier");
        coordinator.button("Save").click();
        assertThat(page.getByText("Merge the two if they are the same")).isVisible();
        coordinator.field("Name").fill("Dr Ivo Fearnsby");
        coordinator.button("Save").click();
        coordinator.rest();
        assertThat(page.locator("vaadin-grid").first()).containsText("Dr Ivo Fearnsby");

        coordinator.button("Correct or merge Dr M Ferrier").click();
        coordinator.rest();
        coordinator.button("Merge into it").click();
        assertThat(page.getByText("Choose the entry that is to be kept")).isVisible();
        page.locator("vaadin-combo-box input").fill("Dr Maud");
        page.locator("vaadin-combo-box-item:visible").first().click();
        coordinator.rest();
        coordinator.button("Merge into it").click();
        coordinator.rest();
        assertThat(coordinator.button("Correct or merge Dr M Ferrier")).hasCount(0);
        assertThat(coordinator.button("Correct or merge Dr Maud Ferrier")).hasCount(1);

        page.locator("vaadin-text-field input").first().fill("fearns");
        assertThat(coordinator.button("Correct or merge Dr Maud Ferrier")).hasCount(0);
        assertThat(coordinator.button("Correct or merge Dr Ivo Fearnsby")).hasCount(1);
    }

    private void takeIn(String name, String phone) {
        new Staff(actingAs).as("coordinator", () -> {
            directory.takeIn(
                    DocumentFormat.parse(
                                    "{\"referrer\": {\"name\": \"" + name
                                            + "\", \"organisation\": \"Millbeck Surgery\","
                                            + " \"phone\": \"" + phone + "\"},"
                                            + " \"imaging\": [{\"where\": \"Fellgate Infirmary\"}]}",
                                    MONDAY)
                            .document(),
                    MONDAY);
            return name;
        });
    }
}
