package limbqueue.timetable.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** The order within a session, in a browser. All people and rooms in it are invented. */
@InBrowser
class OrderInSessionViewIT {

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;
    private LocalDate day;

    @BeforeEach
    void aClinicOfThree() {
        staff = new Staff(actingAs);
        day = office(referrals::today).plusDays(10);
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                SessionKind.CLINIC,
                                day,
                                LocalTime.of(8, 0),
                                LocalTime.NOON,
                                "Consulting room 1",
                                "Dr Halvern",
                                Set.of()),
                        Optional.empty())))
                .isInstanceOf(TimetableOutcome.Done.class);
        var session = office(() -> sessions.week(day)).on(day).getFirst().kept().id();
        for (var family : new String[] {"Avery", "Brook", "Calder"}) {
            var id = approved(family);
            assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 0, session, true)))
                    .isInstanceOf(TimetableOutcome.Done.class);
        }
    }

    @Test
    void aCaseIsMovedByKeysAndByButtonsAndTheListOfTheDayFollows(Visitor coordinator, Visitor physician) {
        coordinator.signIn("coordinator").open("sessions?week=" + day);
        assertOrder(coordinator, "08:00 Avery", "08:27 Brook", "08:54 Calder");

        block(coordinator, "Calder").focus();
        coordinator.page().keyboard().press("Alt+ArrowUp");
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-said"))
                .containsText("Calder, Enid is expected at 08:27 now. Brook, Enid is expected at 08:54 now.");
        assertOrder(coordinator, "08:00 Avery", "08:27 Calder", "08:54 Brook");
        assertThat(block(coordinator, "Calder")).isFocused();
        coordinator.page().keyboard().press("Alt+ArrowUp");
        coordinator.rest();
        assertOrder(coordinator, "08:00 Calder", "08:27 Avery", "08:54 Brook");
        coordinator.page().keyboard().press("Alt+ArrowUp");
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-said")).containsText("Calder, Enid is the first one already.");
        assertThat(block(coordinator, "Calder")).isFocused();
        assertAccessible(coordinator);

        block(coordinator, "Calder").press("Enter");
        coordinator.button("Leave it").waitFor();
        assertAccessible(coordinator);
        coordinator.picture(Path.of("target/pictures/sessions-case.png"), 1440);
        coordinator.picture(Path.of("target/pictures/sessions-case-1024.png"), 1024);
        press(coordinator, "The patient has been told");
        block(coordinator, "Avery").press("Enter");
        press(coordinator, "Earlier in its session: Avery, Enid");
        assertThat(dialog(coordinator))
                .containsText("Calder, Enid has been told of 08:00 and must be told anew: it would be 08:27.");
        assertOrder(coordinator, "08:00 Calder", "08:27 Avery", "08:54 Brook");
        press(coordinator, "Move");
        assertOrder(coordinator, "08:00 Avery", "08:27 Calder", "08:54 Brook");
        assertThat(coordinator.page().locator(".lq-block-told")).hasCount(0);

        coordinator.open("sessions/day/" + day);
        var rows = coordinator.page().locator(".lq-day-table tbody tr");
        assertThat(rows.nth(0)).containsText("08:00");
        assertThat(rows.nth(0)).containsText("Avery, Enid");
        assertThat(rows.nth(1)).containsText("Calder, Enid");
        assertThat(rows.nth(2)).containsText("Brook, Enid");

        physician.signIn("physician").open("sessions?week=" + day);
        block(physician, "Brook").focus();
        physician.page().keyboard().press("Alt+ArrowUp");
        physician.rest();
        assertOrder(physician, "08:00 Avery", "08:27 Calder", "08:54 Brook");
        block(physician, "Brook").press("Enter");
        assertThat(dialog(physician).getByText("Earlier")).hasCount(0);

        coordinator.open("sessions?week=" + day);
        block(coordinator, "Brook").press("Enter");
        press(coordinator, "The patient has been told");
        block(coordinator, "Avery").press("Enter");
        press(coordinator, "Take out");
        assertThat(dialog(coordinator))
                .containsText("Brook, Enid has been told of 08:54 and must be told anew: it would be 08:27.");
        assertAccessible(coordinator);
        coordinator.picture(Path.of("target/pictures/sessions-others-told.png"), 1440);
        coordinator.picture(Path.of("target/pictures/sessions-others-told-1024.png"), 1024);
        assertOrder(coordinator, "08:00 Avery", "08:27 Calder", "08:54 Brook");
        press(coordinator, "Take out");
        assertOrder(coordinator, "08:00 Calder", "08:27 Brook");
        assertThat(coordinator.page().locator(".lq-said")).containsText("Brook, Enid is expected at 08:27 now.");
        assertThat(coordinator.page().locator(".lq-block-told")).hasCount(0);
    }

    private static void assertOrder(Visitor visitor, String... blocks) {
        assertThat(visitor.page().locator(".lq-block")).containsText(blocks);
    }

    private static Locator block(Visitor visitor, String name) {
        return visitor.page().locator(".lq-block", new Page.LocatorOptions().setHasText(name));
    }

    private static Locator dialog(Visitor visitor) {
        return visitor.page().locator("vaadin-dialog[opened]");
    }

    private static void press(Visitor visitor, String words) {
        dialog(visitor)
                .getByRole(
                        AriaRole.BUTTON,
                        new Locator.GetByRoleOptions().setName(words).setExact(true))
                .click();
        visitor.rest();
    }

    private long approved(String family) {
        var draft = Draft.of(Arriving.REST_PAIN.replace(
                "2026-01-12", office(referrals::today).toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        var queued = office(() -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
        staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), new Decision.Approve()));
        return queued.id();
    }

    private <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }

    private static void assertAccessible(Visitor visitor) {
        assertThat(visitor.accessibilityViolations())
                .filteredOn(line -> !line.contains("v-status-message") && !line.contains("vaadin-connection-indicator"))
                .isEmpty();
    }
}
