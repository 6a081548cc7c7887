package limbqueue.rulebook.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Path;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Visitor;
import limbqueue.triage.TriageResult;
import limbqueue.triage.rule.RuleBook;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The rule book in a browser. */
@InBrowser
class RulesViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private static Locator rules(Visitor visitor) {
        return visitor.page().locator(".lq-rule:visible");
    }

    private static Locator rule(Visitor visitor, String id) {
        return visitor.page()
                .locator(".lq-rule")
                .filter(new Locator.FilterOptions()
                        .setHas(visitor.page()
                                .locator(".lq-rule-id")
                                .getByText(id, new Locator.GetByTextOptions().setExact(true))));
    }

    @Test
    void thePhysicianReadsEveryRuleAndHowOftenItSpeaks(Visitor physician) {
        actingAs.person("coordinator", () -> {
            var entered = referrals.enter(Arriving.REST_PAIN);
            referrals.submit(entered.id(), entered.version());
        });
        physician.signIn("physician").open("queue");
        physician
                .page()
                .getByRole(
                        AriaRole.LINK,
                        new Page.GetByRoleOptions().setName("Rules").setExact(true))
                .click();
        physician.page().waitForURL("**/rules");
        physician.rest();

        assertThat(rules(physician)).hasCount(RuleBook.shipped().rules().size());
        assertThat(physician.page().locator("main").innerText())
                .contains(TriageResult.NOTICE)
                .contains("Rule book " + RuleBook.shipped().id())
                .contains("standard-1");
        assertThat(rule(physician, "urgency-rest-pain").innerText()).contains("of 1 referral");
        assertThat(rule(physician, "urgency-rest-pain").locator(".lq-rule-count"))
                .hasText("1");
        assertThat(rule(physician, "only-leg").locator(".lq-rule-count")).hasText("0");
        assertThat(rule(physician, "kidney-risk").innerText())
                .contains("30 mL/min/1.73 m²")
                .contains("since 21 Jan 2020")
                .contains("American College of Radiology. Manual on Contrast Media");
        assertThat(physician.accessibilityViolations()).isEmpty();
        physician.picture(PICTURES.resolve("rules-1440.png"), 1440);
        physician.picture(PICTURES.resolve("rules-1024.png"), 1024);
    }

    @Test
    void theSearchFiltersAsOneTypes(Visitor physician) {
        physician.signIn("physician").open("rules");
        var search = physician.field("Search");
        search.pressSequentially("popliteal");
        assertThat(physician.page().locator(".lq-rules-found")).hasText(Pattern.compile("\\d+ of \\d+ rules"));
        assertThat(rules(physician).allInnerTexts())
                .hasSizeBetween(2, 20)
                .allSatisfy(rule -> assertThat(rule).containsIgnoringCase("popliteal"));
        search.pressSequentially(" unknown size 20 mm");
        assertThat(rules(physician)).hasCount(1);
        assertThat(physician.page().locator("main").innerText()).contains("urgency-popliteal-aneurysm");
        assertThat(physician.heading("Red flags")).not().isVisible();
        physician.picture(PICTURES.resolve("rules-found-1440.png"), 1440);
        assertThat(physician.accessibilityViolations()).isEmpty();

        search.fill("no rule says this");
        assertThat(physician.page().getByText("No rule has these words.")).isVisible();
        search.fill("");
        assertThat(rules(physician)).hasCount(RuleBook.shipped().rules().size());
    }

    @Test
    void theBookIsPrintedAsPdf(Visitor manager) throws IOException {
        manager.signIn("manager").open("rules");
        var download = manager.page()
                .waitForDownload(() -> manager.page()
                        .getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Print as PDF"))
                        .click());
        assertThat(download.suggestedFilename())
                .isEqualTo("rule-book-" + RuleBook.shipped().id() + ".pdf");
        download.saveAs(PICTURES.resolve("rule-book.pdf"));
        try (var pdf = Loader.loadPDF(PICTURES.resolve("rule-book.pdf").toFile())) {
            assertThat(new PDFTextStripper().getText(pdf)).contains(TriageResult.NOTICE);
        }
    }

    @Test
    void whoEntersReferralsHasNoRulesInTheBar(Visitor coordinator) {
        coordinator.signIn("coordinator").open("referrals");
        assertThat(coordinator
                        .page()
                        .getByRole(
                                AriaRole.LINK,
                                new Page.GetByRoleOptions().setName("Rules").setExact(true)))
                .hasCount(0);
        coordinator.open("rules");
        assertThat(coordinator.page().locator(".lq-rule")).hasCount(0);
    }
}
