package limbqueue.dispatch.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.nio.file.Path;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.letter.LetterCorrections;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A letter is corrected on the desk with the keyboard alone. All people and places are invented. */
@InBrowser
class CorrectionViewIT {

    @Autowired
    private Referrals referrals;

    @Autowired
    private LetterCorrections corrections;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;
    private long letter;

    @BeforeEach
    void aLetterGoesByPost() {
        staff = new Staff(actingAs);
        letter = staff.as("coordinator", () -> {
            var entered = referrals.enter(Arriving.REST_PAIN
                    .replace("Ångström-Łuczak", "Sedgewick")
                    .replace("12 Tannery Row, Millbeck", "12 Tannery Row\\nMillbeck"));
            referrals.submit(entered.id(), entered.version());
            return jdbc.sql("select max(id) from letter").query(Long.class).single();
        });
    }

    @Test
    void aLetterIsHeldCorrectedAndReleasedWithTheKeyboard(Visitor coordinator) {
        coordinator.signIn("coordinator").open("letters");
        var page = coordinator.page();
        press(page.locator(".lq-chip", new Page.LocatorOptions().setHasText("To send")), coordinator);
        press(coordinator.button("Text of the letter about Zoë Sedgewick"), coordinator);
        press(coordinator.button("Correct the words of this letter by hand"), coordinator);

        var body = coordinator.field("What the letter says");
        assertThat(body).isFocused();
        assertThat(page.locator(".lq-desk-standing")).containsText("If the leg gets worse");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        page.keyboard().press("Control+End");
        page.keyboard().type(" There may have been an undisclosed attempt.");
        press(coordinator.button("Save the correction"), coordinator);
        assertThat(page.locator("[role=alert]", new Page.LocatorOptions().setHasText("says a suspicion")))
                .isVisible();
        assertThat(body).hasValue(Pattern.compile("undisclosed attempt\\.$"));
        page.keyboard().press("Escape");
        assertThat(body).isVisible();
        coordinator.picture(Path.of("target/pictures/desk-correct.png"), 1440);
        coordinator.picture(Path.of("target/pictures/desk-correct-1024.png"), 1024);

        // Somebody else is quicker.
        var before = staff.as("coordinator", () -> corrections.open(letter));
        staff.as(
                "coordinator",
                () -> corrections.correct(letter, before.version(), before.body() + "\n\nWe are closed on Friday."));
        body.focus();
        page.keyboard().press("Control+a");
        page.keyboard().type("Thank you. The entrance is in Weir Lane.");
        press(coordinator.button("Save the correction"), coordinator);
        assertThat(page.getByText("has corrected this letter meanwhile")).isVisible();
        assertThat(page.locator(".lq-desk-theirs")).containsText("We are closed on Friday.");
        assertThat(body).hasValue("Thank you. The entrance is in Weir Lane.");
        press(coordinator.button("Save the correction"), coordinator);

        var shown = page.locator(".lq-letter-preview");
        assertThat(shown).containsText("Held by Wren Halloway: Its words are being corrected by hand.");
        assertThat(shown.locator("pre")).containsText("The entrance is in Weir Lane.");
        assertThat(shown.locator("pre")).containsText("If the leg gets worse");
        assertThat(shown.locator(".lq-desk-changes ins").first()).containsText("added:");
        assertThat(shown.locator(".lq-desk-changes")).containsText("We are closed on Friday.");
        assertThat(coordinator.button("Correct the words of this letter by hand"))
                .isFocused();
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(Path.of("target/pictures/desk-corrected.png"), 1440);
        coordinator.picture(Path.of("target/pictures/desk-corrected-1024.png"), 1024);

        press(coordinator.button("Release this letter, by what the directory says now"), coordinator);
        assertThat(shown).containsText("Goes with the next post");
        assertThat(jdbc.sql("select text from letter where id = :id")
                        .param("id", letter)
                        .query(String.class)
                        .single())
                .contains("The entrance is in Weir Lane.")
                .doesNotContain("closed on Friday");
    }

    private static void press(Locator button, Visitor visitor) {
        button.focus();
        visitor.page().keyboard().press("Enter");
        visitor.rest();
    }
}
