package limbqueue.search.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import limbqueue.access.ActingAs;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The search by keyboard. All people are invented. */
@InBrowser
class SearchViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private void entered(String family, String letter) {
        var draft = Draft.of(Arriving.REST_PAIN);
        draft.set("patient.family", family);
        draft.set("letterText", letter);
        actingAs.person("coordinator", () -> referrals.enter(draft.toJson()));
    }

    @Test
    void fromAnyPageTheSearchIsOneKeyAway(Visitor coordinator) throws IOException {
        entered("Wychwood", "The left foot is cold since Tuesday.");
        entered(
                "Brack",
                "Her sister, Mrs Wychwood, told us that the ulcer is no better, and that she sleeps in a chair.");
        coordinator.signIn("coordinator").open("letters");
        var page = coordinator.page();
        page.keyboard().press("/");
        assertThat(page.locator(".lq-search-words")).isFocused();
        page.keyboard().type("wychw");
        page.keyboard().press("Enter");
        page.waitForURL("**/search?q=wychw");
        coordinator.rest();
        assertThat(page.getByText("2 referrals have “wychw”.")).isVisible();
        assertThat(page.locator(".lq-found mark").first()).hasText("Wychwood");
        assertThat(page.locator(".lq-found > li").first()).containsText("Zoë Wychwood");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(PICTURES.resolve("search-1440.png"), 1440);
        coordinator.picture(PICTURES.resolve("search-1024.png"), 1024);

        var download = page.waitForDownload(() -> page.locator(".lq-csv").click());
        var file = PICTURES.resolve("search-results.csv");
        download.saveAs(file);
        assertThat(Files.readString(file, StandardCharsets.UTF_8))
                .startsWith("\uFEFFReference,Patient,")
                .contains("Wychwood");

        page.locator(".lq-found a").first().focus();
        page.keyboard().press("Enter");
        page.waitForURL("**/referrals/*");
        coordinator.rest();
        page.keyboard().press("/");
        assertThat(page.locator(".lq-search-words")).isFocused();
    }

    @Test
    void theSlashIsASlashWhereSomebodyTypes(Visitor coordinator) {
        coordinator.signIn("coordinator").open("referrals");
        var field = coordinator.field("Find by patient, reference or referrer");
        field.focus();
        coordinator.page().keyboard().type("3/4");
        assertThat(field).hasValue("3/4");
    }

    @Test
    void aScriptInANameIsWordsAndNothingElse(Visitor coordinator) {
        entered("<img src=x onerror=document.title='run'>Scriptley", "<script>document.title='run'</script> مرحبا 😀");
        coordinator.signIn("coordinator").open("search?q=scriptley");
        assertThat(coordinator.page().locator(".lq-found")).containsText("onerror=document.title='run'");
        assertThat(coordinator.page().locator(".lq-found img, .lq-found script"))
                .hasCount(0);
        assertThat(coordinator.page()).hasTitle("Search · LimbQueue");
    }

    @Test
    void nothingFoundSaysHowToSearch(Visitor physician) {
        physician.signIn("physician").open("search?q=Zzyzxq");
        assertThat(physician.page().getByText("Nothing has “Zzyzxq”, and no name is similar."))
                .isVisible();
        assertThat(physician.accessibilityViolations()).isEmpty();
        physician.picture(PICTURES.resolve("search-nothing-1024.png"), 1024);
        physician.open("search");
        assertThat(physician.page().getByText("Type what you know of the referral."))
                .isVisible();
    }

    @Test
    void whoSeesNoPatientHasNoSearch(Visitor manager) {
        manager.signIn("manager").open("people");
        assertThat(manager.page().locator(".lq-search")).hasCount(0);
        manager.open("search?q=zoe");
        assertThat(manager.page().locator(".lq-found")).hasCount(0);
    }
}
