package limbqueue.referral.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Rest pain with a poor pressure threatens the leg; one physician would let it wait, a second one looks first. */
@InBrowser
class SecondLookInBrowserIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    @Test
    void aLoweredTierWaitsForTheSecondPhysicianAndIsTakenBackByKey(Visitor first, Visitor second) {
        jdbc.sql("""
                insert into account (sign_in_name, display_name, role, password_hash, must_change_password)
                select 'second.physician', 'Dr Oda Brandt', role, password_hash, false
                from account where sign_in_name = 'physician'
                """).update();
        var staff = new Staff(actingAs);
        var id = staff.as("coordinator", () -> {
            var entered = referrals.enter(Arriving.REST_PAIN);
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version()))
                    .referral()
                    .id();
        });

        first.signIn("physician").open("referrals/" + id);
        first.button("Change").click();
        first.page().getByLabel("Within 6 weeks, by").check();
        first.page().getByLabel("Reason").fill("The pain is from the back, not from the leg.");
        first.button("Approve with this change").click();

        var waits = first.page().locator(".lq-second-look");
        assertThat(waits).containsText("Waits for a second physician: it stands as proposed");
        assertThat(waits).containsText("the left leg is threatened");
        assertThat(waits).containsText("Another physician has to look before it counts.");
        first.picture(PICTURES.resolve("second-look-first-1440.png"), 1440);

        second.signIn("second.physician");
        assertThat(second.page().locator(".lq-second-look-mark")).containsText("Waits for a second physician");
        second.picture(PICTURES.resolve("second-look-queue-1440.png"), 1440);
        second.open("referrals/" + id);
        second.picture(PICTURES.resolve("second-look-1440.png"), 1440);
        second.picture(PICTURES.resolve("second-look-1024.png"), 1024);
        assertThat(second.accessibilityViolations()).isEmpty();
        second.button("Do not agree").click();
        assertThat(second.page().locator(".lq-second-look")).containsText("Say why not");
        second.button("Agree to within 6 weeks").click();

        assertThat(second.page().locator(".lq-decision-banner")).containsText("within 6 weeks");
        assertThat(staff.as("physician", () -> referrals.get(id)).state()).isEqualTo(ReferralState.APPROVED);

        // The decision is the first physician's, and so is taking it back.
        first.open("referrals/" + id);
        assertThat(first.page().locator(".lq-can-take-back"))
                .containsText("its letter waits until the decision is final");
        first.picture(PICTURES.resolve("take-back-1440.png"), 1440);
        first.page().keyboard().press("u");
        first.page().locator(".lq-one-screen").waitFor();
        assertThat(staff.as("physician", () -> referrals.get(id)).state()).isEqualTo(ReferralState.QUEUED);
    }
}
