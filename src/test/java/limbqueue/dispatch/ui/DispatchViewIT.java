package limbqueue.dispatch.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.FilePayload;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import limbqueue.access.ActingAs;
import limbqueue.referral.Arriving;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import org.apache.pdfbox.Loader;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The desk in a browser. All people and places are invented. */
@InBrowser
class DispatchViewIT {

    @Autowired
    private Referrals referrals;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ActingAs actingAs;

    @BeforeEach
    void lettersLieOnTheDesk() {
        referred("Dr Maud Ferrier", "\"email\": \"maud.ferrier@millbeck.example\", \"prefers\": \"email\"");
        referred("Dr Ivo Fernsby", "\"fax\": \"0555 01 3300\", \"prefers\": \"fax\"");
        referred("Dr Ada Crake", "\"email\": \"ada crake@millbeck.example\", \"prefers\": \"email\"");
        referred("Dr Val Inch", "\"address\": \"1 High Street\\nMillbeck\", \"prefers\": \"post\"");
        referred("Dr Wim Jory", "\"address\": \"2 High Street\\nMillbeck\", \"prefers\": \"post\"");
        // One has left, as a mail server would have taken it.
        var away = referred("Dr Una Hurst", "\"email\": \"una@millbeck.example\", \"prefers\": \"email\"");
        for (var sql : new String[] {
            "update outbox set state = 'SENDING', claimed_at = now(), attempts = 1, version = version + 1 where letter = :id",
            "update outbox set state = 'SENT', claimed_at = null, version = version + 1, at = now() where letter = :id",
            "update letter set pdf = 'x', sent_at = now(), sent_by = 'LimbQueue' where id = :id"
        }) {
            jdbc.sql(sql).param("id", away).update();
        }
    }

    @Test
    void lettersAreCheckedHeldSentOnTheirWayPostedAndComeBack(Visitor coordinator) throws Exception {
        coordinator.signIn("coordinator").open("letters");
        var page = coordinator.page();
        assertThat(page.getByText("No mail server is set up")).isVisible();
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(Path.of("target/pictures/desk-check.png"), 1440);
        assertThat(list(coordinator)).containsText("is no e-mail address");
        assertThat(list(coordinator)).containsText("No fax gateway is set up here");

        // To check: sent another way.
        coordinator.button("Text of the letter about Zoë Crake").click();
        coordinator.rest();
        assertThat(page.locator(".lq-letter-text")).containsText("Your referral has reached us");
        coordinator.picture(Path.of("target/pictures/desk-preview.png"), 1440);
        coordinator.picture(Path.of("target/pictures/desk-preview-1024.png"), 1024);
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator
                .button("Release this letter, by what the directory says now")
                .click();
        assertThat(page.locator(".lq-letter-preview [role=alert]")).containsText("Correct it in the directory");
        coordinator.button("Send this letter to an address that you give").click();
        coordinator.rest();
        coordinator.field("To").fill("ada.crake@");
        coordinator.button("Send").click();
        assertThat(page.locator("vaadin-dialog [role=alert], vaadin-dialog-overlay [role=alert]"))
                .containsText("needs a name, an @ and a domain");
        coordinator.picture(Path.of("target/pictures/desk-send.png"), 1440);
        coordinator.field("To").fill("ada.crake@millbeck.example");
        coordinator.button("Send").click();
        coordinator.rest();

        // To send: held.
        pile(coordinator, "To send");
        assertThat(list(coordinator)).containsText("ada.crake@millbeck.example");
        coordinator.button("Text of the letter about Zoë Ferrier").click();
        coordinator.rest();
        coordinator.button("Hold this letter back").click();
        coordinator.rest();
        coordinator.button("Hold").click();
        assertThat(page.getByText("Say why it is held")).isVisible();
        coordinator.field("Why it is held").fill("Wait for the call of Thursday.");
        coordinator.button("Hold").click();
        coordinator.rest();
        pile(coordinator, "To check");
        assertThat(list(coordinator)).containsText("Held by Wren Halloway: Wait for the call of Thursday.");

        // The day's post.
        assertThat(page.getByText("2 letters go by post")).isVisible();
        var link = page.getByText("Print the day’s post").elementHandle();
        var pdf = page.request().get(page.evaluate("a => a.href", link).toString());
        try (var document = Loader.loadPDF(pdf.body())) {
            assertThat(document.getNumberOfPages()).isEqualTo(4);
        }
        coordinator.button("All of the day’s post is posted").click();
        assertThat(page.getByText("2 letters are recorded as posted.")).isVisible();
        pile(coordinator, "Sent");
        assertThat(list(coordinator)).containsText("by Wren Halloway");

        // Mail that came back.
        bring(coordinator, "not a report");
        assertThat(page.getByText("This is no delivery report")).isVisible();
        bring(coordinator, report());
        assertThat(page.getByText("lies under “Bounced” now")).isVisible();
        pile(coordinator, "Bounced");
        assertThat(list(coordinator)).containsText("there is no such mailbox (5.1.1)");
        coordinator.picture(Path.of("target/pictures/desk-bounced.png"), 1440);
        coordinator.picture(Path.of("target/pictures/desk-bounced-1024.png"), 1024);
        assertThat(coordinator.accessibilityViolations()).isEmpty();
    }

    @Test
    void aPhysicianReadsAndDoesNothing(Visitor physician) {
        physician.signIn("physician").open("letters");
        assertThat(physician.page().locator(".lq-worklist")).containsText("Dr Ada Crake");
        assertThat(physician.page().getByText("Mark as sent")).hasCount(0);
        assertThat(physician.page().getByText("Print the day’s post")).hasCount(0);
    }

    private static void bring(Visitor visitor, String message) {
        visitor.page()
                .locator("vaadin-upload input[type=file]")
                .setInputFiles(new FilePayload("back.eml", "message/rfc822", message.getBytes(StandardCharsets.UTF_8)));
        visitor.rest();
    }

    private static void pile(Visitor visitor, String name) {
        visitor.page()
                .locator(".lq-chip", new Page.LocatorOptions().setHasText(name))
                .click();
        visitor.rest();
    }

    private static Locator list(Visitor visitor) {
        return visitor.page().locator(".lq-worklist");
    }

    private long referred(String name, String referrer) {
        var document = Arriving.REST_PAIN
                .replace("Ångström-Łuczak", name.substring(name.lastIndexOf(' ') + 1))
                .replace(
                        "{\"name\": \"Dr Ines Farrow\", \"organisation\": \"Millbeck Surgery\", \"address\": \"12 Tannery Row, Millbeck\"}",
                        "{\"name\": \"" + name + "\", " + referrer + "}");
        return new Staff(actingAs).as("coordinator", () -> {
            var entered = referrals.enter(document);
            referrals.submit(entered.id(), entered.version());
            return jdbc.sql("select max(id) from letter").query(Long.class).single();
        });
    }

    private String report() {
        var token = jdbc.sql("select token from outbox where state = 'SENT' and channel = 'EMAIL'")
                .query(java.util.UUID.class)
                .list()
                .getLast();
        return """
                Subject: Undelivered
                MIME-Version: 1.0
                Content-Type: multipart/report; report-type=delivery-status; boundary="part"

                --part
                Content-Type: message/delivery-status

                Reporting-MTA: dns; mail.millbeck.example

                Final-Recipient: rfc822; una@millbeck.example
                Action: failed
                Status: 5.1.1

                --part
                Content-Type: text/rfc822-headers

                Message-ID: <%s.1@hollinbridge.example>

                --part--
                """.formatted(token).replace("\n", "\r\n");
    }
}
