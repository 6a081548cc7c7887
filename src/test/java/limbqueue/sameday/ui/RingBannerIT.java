package limbqueue.sameday.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.sameday.SameDayChoice;
import limbqueue.sameday.SameDayChoices;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

@InBrowser
class RingBannerIT {

    private static final Path PICTURES = Path.of("target", "pictures");

    private static final String SUDDEN = """
            {"patient": {"given": "Bram", "family": "Tolliver", "born": "1944-11-20", "phone": "01632 960211"},
             "referrer": {"name": "Dr Ines Farrow", "organisation": "Millbeck Surgery", "phone": "01632 960311"},
             "legs": {"right": {"acute": {"present": true, "sensory": "beyondToes", "motor": "mild", "pain": true, "cold": true}}}}""";

    @Autowired
    private Referrals referrals;

    @Autowired
    private SameDayChoices choices;

    @Autowired
    private ActingAs actingAs;

    @Test
    void aSameDayCaseRingsOnEveryPageUntilSomebodyTakesItByKeyboard(Visitor physician, Visitor coordinator) {
        var staff = new Staff(actingAs);
        staff.as(
                "manager",
                () -> choices.choose(
                        choices.inForce().version(),
                        new SameDayChoice(15, "Harrow Vale Hospital", "01632 960900", "01632 960901"),
                        "Agreed at the meeting."));
        physician.signIn("physician");
        coordinator.signIn("coordinator");
        coordinator.open("letters");
        assertThat(ring(physician)).isHidden();
        var search = physician.page().getByRole(AriaRole.SEARCHBOX).first();
        search.focus();
        search.pressSequentially("Toll");

        var sudden = submitted(staff);

        for (var visitor : new Visitor[] {physician, coordinator}) {
            assertThat(ring(visitor)).isVisible();
            assertThat(ring(visitor).getByRole(AriaRole.ALERT))
                    .containsText(Pattern.compile("Tolliver, Bram.*since \\d\\d:\\d\\d"));
            assertThat(ring(visitor)).containsText("Patient 01632 960211");
            assertThat(ring(visitor)).containsText("Referrer, Dr Ines Farrow 01632 960311");
            assertThat(ring(visitor)).containsText("Same day: 1 taken by nobody");
            assertThat(ring(visitor)).containsText("Harrow Vale Hospital 01632 960900");
        }
        // Whoever types goes on typing.
        assertThat(search).isFocused();
        assertThat(search).hasValue("Toll");
        physician.picture(PICTURES.resolve("ring-1440.png"), 1440);
        physician.picture(PICTURES.resolve("ring-1024.png"), 1024);
        assertThat(physician.accessibilityViolations()).isEmpty();

        var take =
                ring(physician).getByRole(AriaRole.BUTTON).filter(new Locator.FilterOptions().setHasText("I take it"));
        for (var pressed = 0; pressed < 30 && !isFocused(take); pressed++) {
            physician.page().keyboard().press("Tab");
        }
        assertThat(take).isFocused();
        physician.page().keyboard().press("Enter");

        physician.page().waitForURL("**/referrals/" + sudden.id());
        assertThat(ring(physician)).isHidden();
        assertThat(ring(coordinator)).isHidden();
        assertThat(physician.page().locator(".lq-taken")).containsText(Pattern.compile("^Taken by .+, \\d\\d:\\d\\d"));
        physician.page().locator("[data-key=b]").click();
        assertThat(physician.page().locator(".lq-timeline")).containsText("took the same-day case");
    }

    @Test
    void theChoiceIsMadeWithAReasonAndKept(Visitor manager) {
        manager.signIn("manager");
        manager.open("same-day");
        manager.field("Ask more people when nobody has taken a case after, minutes")
                .fill("10");
        manager.button("Save").click();
        assertThat(manager.page().locator(".lq-form-error")).hasText("Say why it changes; the reason is kept with it.");
        manager.page().getByLabel("Why it changes").fill("Fifteen is too long at night.");
        manager.button("Save").click();
        assertThat(manager.page().locator(".lq-history-of-days")).containsText("after 10 minutes");
        manager.picture(PICTURES.resolve("same-day-1440.png"), 1440);
        assertThat(manager.accessibilityViolations()).isEmpty();
    }

    @Test
    void twoWhoHaveOneReferralOpenSeeEachOtherUntilOneSignsOut(Visitor one, Visitor other) {
        var staff = new Staff(actingAs);
        one.signIn("physician");
        other.signIn("coordinator");
        var referral = submitted(staff);
        one.open("referrals/" + referral.id());
        assertThat(onlookers(one)).not().containsText("Also looking");
        other.open("referrals/" + referral.id());
        assertThat(onlookers(one))
                .containsText(Pattern.compile(
                        "Also looking at this referral: Wren Halloway \\(coordinator, since \\d\\d:\\d\\d\\)"));
        assertThat(onlookers(other)).containsText("(physician, since");
        one.picture(PICTURES.resolve("onlookers-1440.png"), 1440);
        assertThat(one.accessibilityViolations()).isEmpty();

        other.button("Sign out").click();
        assertThat(onlookers(one)).not().containsText("Also looking");
    }

    private static boolean isFocused(Locator locator) {
        return Boolean.TRUE.equals(locator.evaluate("element => element === document.activeElement"));
    }

    private static Locator onlookers(Visitor visitor) {
        return visitor.page().locator(".lq-onlookers");
    }

    private static Locator ring(Visitor visitor) {
        return visitor.page().locator(".lq-ring");
    }

    private Referral submitted(Staff staff) {
        return staff.as("coordinator", () -> {
            var entered = referrals.enter(SUDDEN);
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }
}
