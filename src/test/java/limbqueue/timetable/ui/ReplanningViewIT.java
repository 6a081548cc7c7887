package limbqueue.timetable.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAdjusters;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
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
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import org.springframework.beans.factory.annotation.Autowired;

/** Something has changed, and who comes at short notice, in a browser. All people and rooms in it are invented. */
@InBrowser
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class ReplanningViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;
    private LocalDate monday;

    @BeforeEach
    void aWeekToCome() {
        staff = new Staff(actingAs);
        monday = office(referrals::today).with(TemporalAdjusters.next(DayOfWeek.MONDAY));
    }

    /** The first: a session of the other test would be an earlier place, in a week that is not shown. */
    @Test
    @Order(1)
    void anIllOperatorIsEnteredByKeyboardAndTheNewPlanIsAcceptedWithAYesForWhoeverWasTold(Visitor coordinator) {
        var first = session(SessionKind.VASCULAR_LABORATORY, monday, "Vascular laboratory 1");
        session(SessionKind.VASCULAR_LABORATORY, monday.plusDays(1), "Vascular laboratory 2");
        place(approved("Thornbury", "Hesper"), first, true);
        place(approved("Sallow", "Enid"), first, false);
        coordinator.signIn("coordinator").open("sessions?week=" + monday);

        coordinator.button("Something has changed…").focus();
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
        var dialog = coordinator.page().locator("vaadin-dialog[opened]");
        assertThat(dialog).containsText(TriageResult.NOTICE);
        press(coordinator, "Plan anew");
        assertThat(dialog).containsText("Say how many minutes it needs, from 1 to 1440.");
        // The kind is chosen with the arrow keys.
        dialog.locator("vaadin-select-value-button").focus();
        coordinator.page().keyboard().press("ArrowDown");
        coordinator.focusedEntry(1).waitFor();
        coordinator.page().keyboard().press("ArrowDown");
        coordinator.focusedEntry(2).waitFor();
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
        press(coordinator, "Plan anew");
        assertThat(dialog).containsText("Choose the operator.");
        var operator = dialog.getByLabel("Operator", new Locator.GetByLabelOptions().setExact(true));
        operator.fill("Operator of Vascular laboratory 1");
        operator.press("Enter");
        fill(dialog, "From", monday);
        fill(dialog, "Last day", monday);
        dialog.getByLabel("Why; it stands on the closed sessions").fill("Ill.");
        assertAccessible(coordinator);
        picture(coordinator, "sessions-changed");
        press(coordinator, "Plan anew");

        var plan = coordinator.page().locator("vaadin-dialog[opened]");
        plan.getByText("Closed for it").waitFor(new Locator.WaitForOptions().setTimeout(60_000));
        assertThat(plan).containsText(TriageResult.NOTICE);
        assertThat(plan).containsText("1 patient who has been told is moved, the fewest that was found.");
        var told = plan.locator(".lq-moves > li", new Locator.LocatorOptions().setHasText("Thornbury, Hesper"));
        assertThat(told.locator("input")).not().isChecked();
        assertThat(told).containsText("of which the patient has been told and must be told anew");
        assertThat(plan.locator(".lq-moves > li", new Locator.LocatorOptions().setHasText("Sallow, Enid"))
                        .locator("input"))
                .isChecked();
        assertAccessible(coordinator);
        picture(coordinator, "sessions-new-plan");
        told.locator("input").focus();
        coordinator.page().keyboard().press("Space");
        assertThat(told.locator("input")).isChecked();
        coordinator.rest();
        press(coordinator, "Close the sessions, and accept what is ticked");
        assertThat(coordinator.page().locator(".lq-said")).containsText("1 session is closed. Changed: 2.");
        var closed = coordinator.page().locator(".lq-session-closed");
        assertThat(closed).containsText("Closed: Ill.");
        assertThat(closed.locator(".lq-block")).hasCount(0);
        assertThat(coordinator.page().locator(".lq-block", withText("Thornbury, Hesper")))
                .isVisible();
        picture(coordinator, "sessions-after-new-plan");
    }

    @Test
    @Order(2)
    void aFreePlaceIsGivenByEnterToWhoeverCanComeAtShortNotice(Visitor coordinator) {
        var today = office(referrals::today);
        session(SessionKind.VASCULAR_LABORATORY, today.plusDays(2), "Vascular laboratory 3");
        approved("Lorne", "Brida");
        coordinator.signIn("coordinator").open("sessions");
        coordinator
                .page()
                .getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Short notice"))
                .click();
        coordinator.rest();
        var row = coordinator.page().locator("tbody tr", withText("Lorne, Brida"));
        assertThat(row).containsText("01632 960 077");
        assertThat(row).containsText("not asked yet");
        assertThat(coordinator.page().locator("main")).containsText(TriageResult.NOTICE);
        assertAccessible(coordinator);
        picture(coordinator, "sessions-short-notice");
        row.getByRole(AriaRole.BUTTON, new Locator.GetByRoleOptions().setName("Lorne, Brida can come at short notice"))
                .click();
        coordinator.rest();
        assertThat(row).containsText("can come");
        row.locator("button", new Locator.LocatorOptions().setHasText("Place")).focus();
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-said")).containsText("Placed: Lorne, Brida, pressures and duplex");
        assertThat(row).hasCount(0);
    }

    private static void fill(Locator dialog, String label, LocalDate day) {
        var field = dialog.getByLabel(label, new Locator.GetByLabelOptions().setExact(true));
        field.fill(DateTimeFormatter.ofPattern("dd/MM/yyyy").format(day));
        field.press("Tab");
    }

    private void place(long referral, FilledSession into, boolean told) {
        assertThat(office(() -> appointments.place(
                        referral, StepKind.PRESSURES_AND_DUPLEX, 0, into.kept().id(), true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        if (told) {
            var placed = on(into.kept().date(), into.kept().session().place()).patients().stream()
                    .filter(one -> one.referralId() == referral)
                    .findFirst()
                    .orElseThrow();
            assertThat(office(() -> appointments.told(placed.id(), placed.version())))
                    .isInstanceOf(TimetableOutcome.Done.class);
        }
    }

    private FilledSession session(SessionKind kind, LocalDate day, String place) {
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                kind,
                                day,
                                LocalTime.of(8, 0),
                                LocalTime.of(12, 0),
                                place,
                                "Operator of " + place,
                                Set.of(Capability.ARM_ACCESS)),
                        Optional.empty())))
                .isInstanceOf(TimetableOutcome.Done.class);
        return on(day, place);
    }

    private FilledSession on(LocalDate day, String place) {
        return office(() -> sessions.week(day)).on(day).stream()
                .filter(one -> one.kept().session().place().equals(place))
                .findFirst()
                .orElseThrow();
    }

    private long approved(String family, String given) {
        var draft = Draft.of(Arriving.REST_PAIN.replace(
                "2026-01-12", office(referrals::today).toString()));
        draft.set("patient.given", given);
        draft.set("patient.family", family);
        draft.set("patient.phone", "01632 960 077");
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

    private static Page.LocatorOptions withText(String words) {
        return new Page.LocatorOptions().setHasText(words);
    }

    private static void press(Visitor visitor, String words) {
        visitor.page()
                .locator("vaadin-dialog[opened]")
                .getByRole(
                        AriaRole.BUTTON,
                        new Locator.GetByRoleOptions().setName(words).setExact(true))
                .click();
        visitor.rest();
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
