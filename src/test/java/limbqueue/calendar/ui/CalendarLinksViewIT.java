package limbqueue.calendar.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.ActingAs;
import limbqueue.booking.SessionKind;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Links to calendars in a browser. All people and rooms in it are invented. */
@InBrowser
class CalendarLinksViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Sessions sessions;

    @Autowired
    private ActingAs actingAs;

    @Test
    void aLinkIsMadeByKeyboardShownOnceReadByAProgramAndRevoked(Visitor coordinator, Visitor manager, Visitor physician)
            throws Exception {
        coordinator.signIn("coordinator").open("sessions/calendars");
        assertThat(coordinator.page().locator("main")).containsText("No link has been made yet.");
        coordinator.button("Make the link").click();
        coordinator.rest();
        assertThat(coordinator.page().locator("main")).containsText("No session has been entered yet.");

        enterASession();
        coordinator.open("sessions");
        coordinator
                .page()
                .getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Calendar links"))
                .click();
        coordinator.rest();
        assertThat(coordinator.heading("Calendar links")).isVisible();
        choose(coordinator, "Room: Angiography room");
        coordinator.button("Make the link").click();
        coordinator.rest();
        var field = coordinator.field("Address of the calendar of room Angiography room");
        assertThat(field).isFocused();
        var address = field.inputValue();
        assertThat(address).matches("http://[^/]+/calendar/[A-Za-z0-9_-]{43}\\.ics");
        assertThat(row(coordinator)).containsText("never");
        assertAccessible(coordinator);
        picture(coordinator, "calendar-links");

        assertThat(get(address).statusCode()).isEqualTo(200);
        coordinator.open("sessions/calendars");
        assertThat(row(coordinator)).not().containsText("never");
        assertThat(coordinator.page().locator("main")).not().containsText(address);
        assertThat(coordinator.field("Address of the calendar of room Angiography room"))
                .hasCount(0);

        manager.signIn("manager").open("sessions/calendars");
        assertThat(row(manager)).containsText("by Wren Halloway");
        manager.button("Revoke the link of room Angiography room").click();
        manager.rest();
        manager.button("Revoke").waitFor();
        assertAccessible(manager);
        manager.button("Revoke").click();
        manager.rest();
        assertThat(row(manager)).containsText("Revoked");
        assertThat(get(address).statusCode()).isEqualTo(410);
        assertAccessible(manager);
        picture(manager, "calendar-links-revoked");

        coordinator.button("Revoke the link of room Angiography room").click();
        coordinator.rest();
        coordinator.button("Revoke").click();
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-said")).hasText("Somebody else has revoked this link already.");

        physician.signIn("physician").open("sessions/calendars");
        assertThat(physician.page().locator("main")).not().containsText("Angiography room");
        physician.open("sessions");
        assertThat(physician.page().getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Calendar links")))
                .hasCount(0);
    }

    private void enterASession() {
        var office = new Staff(actingAs);
        assertThat(office.as(
                        "coordinator",
                        () -> sessions.enter(
                                new EnteredSession(
                                        SessionKind.PROCEDURE_ROOM,
                                        sessions.today().plusDays(3),
                                        LocalTime.of(8, 0),
                                        LocalTime.NOON,
                                        "Angiography room",
                                        "Dr Halvern",
                                        Set.of()),
                                Optional.empty())))
                .isInstanceOf(TimetableOutcome.Done.class);
    }

    private static void choose(Visitor visitor, String words) {
        var field = visitor.field("Room or operator");
        field.fill(words);
        visitor.page()
                .locator("vaadin-combo-box-item:visible", new Page.LocatorOptions().setHasText(words))
                .first()
                .waitFor();
        field.press("ArrowDown");
        field.press("Enter");
        visitor.rest();
    }

    private static Locator row(Visitor visitor) {
        return visitor.page().locator(".lq-calendars tbody tr").first();
    }

    private static HttpResponse<String> get(String address) throws Exception {
        try (var client = HttpClient.newHttpClient()) {
            return client.send(
                    HttpRequest.newBuilder(URI.create(address)).build(), HttpResponse.BodyHandlers.ofString());
        }
    }

    private static void picture(Visitor visitor, String name) {
        visitor.picture(PICTURES.resolve(name + ".png"), 1440);
        visitor.picture(PICTURES.resolve(name + "-1024.png"), 1024);
    }

    private static void assertAccessible(Visitor visitor) {
        assertThat(visitor.accessibilityViolations())
                .filteredOn(line -> !line.contains("v-status-message") && !line.contains("vaadin-connection-indicator"))
                .isEmpty();
    }
}
