package limbqueue.timetable.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.Media;
import java.nio.file.Path;
import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.TemporalAdjusters;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
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
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;

/** Sessions in a browser. All people and rooms in it are invented. */
@InBrowser
class SessionsViewIT {

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

    @Test
    void sessionsAreEnteredFilledByKeyboardAndByDraggingPlannedListedAndClosed(Visitor coordinator) {
        approved("Thornbury", "Hesper");
        approved("Sallow", "Enid");
        coordinator.signIn("coordinator").open("sessions?week=" + monday);
        assertThat(coordinator.page().locator("main")).containsText(TriageResult.NOTICE);

        coordinator.button("Enter a session").click();
        fillDay(coordinator, monday.plusDays(1));
        dialog(coordinator).getByLabel("Ends", exactly()).fill("07:00");
        dialog(coordinator).getByLabel("Ends", exactly()).press("Tab");
        dialog(coordinator).getByLabel("Place", exactly()).fill("Consulting room 1");
        dialog(coordinator).getByLabel("Operator", exactly()).fill("Dr Halvern");
        press(coordinator, "Enter");
        assertThat(dialog(coordinator)).containsText("The session ends at 07:00, before it starts at 08:00.");
        assertAccessible(coordinator);
        picture(coordinator, "sessions-enter");
        dialog(coordinator).getByLabel("Ends", exactly()).fill("09:00");
        dialog(coordinator).getByLabel("Ends", exactly()).press("Tab");
        press(coordinator, "Enter");
        assertThat(said(coordinator)).containsText("Entered for ");
        assertThat(session(coordinator, "Clinic 08:00 to 09:00")).containsText("Consulting room 1, Dr Halvern");

        chooseByKeyboard(coordinator, "Case", "Thornbury, Hesper, clinic");
        chooseByKeyboard(coordinator, "Session", "Clinic 08:00 to 09:00");
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
        assertThat(said(coordinator)).containsText("Placed: clinic.");
        var block = coordinator.page().locator(".lq-block", withText("Thornbury"));
        assertThat(block).containsText("08:00 Thornbury, Hesper, 27 min");
        // 27 minutes of the 60 of the session: 45 % of its height.
        assertThat(block.boundingBox().height
                        / coordinator.page().locator(".lq-session-body").boundingBox().height)
                .isBetween(0.43, 0.47);

        coordinator
                .page()
                .locator(".lq-to-place li", withText("Sallow, Enid"))
                .filter(new Locator.FilterOptions().setHasText("clinic"))
                .dragTo(session(coordinator, "Clinic 08:00 to 09:00"));
        coordinator.rest();
        assertThat(coordinator.page().locator(".lq-block", withText("Sallow"))).containsText("08:27 Sallow, Enid");

        approved("Marchbank", "Odo");
        chooseByKeyboard(coordinator, "Case", "Marchbank, Odo, clinic");
        chooseByKeyboard(coordinator, "Session", "Clinic 08:00 to 09:00");
        coordinator.page().keyboard().press("Enter");
        coordinator.rest();
        assertThat(dialog(coordinator)).containsText("The session would run about 21 minutes over its end.");
        assertAccessible(coordinator);
        press(coordinator, "Place");
        assertThat(coordinator.page().locator(".lq-block-over")).containsText("27 min, 21 over");
        assertThat(session(coordinator, "Clinic 08:00 to 09:00"))
                .containsText("81 of 60 minutes taken, 21 over the end");
        assertAccessible(coordinator);

        enterTheOtherSessions();
        coordinator.button("Propose a plan").click();
        assertThat(said(coordinator)).hasText("A plan is being looked for.");
        var moves = coordinator.page().locator(".lq-moves > li");
        moves.first().waitFor(new Locator.WaitForOptions().setTimeout(120_000));
        assertThat(moves.first()).containsText("Has no place yet.");
        assertAccessible(coordinator);
        picture(coordinator, "sessions");
        var before = moves.count();
        moves.first()
                .getByText("Accept", new Locator.GetByTextOptions().setExact(true))
                .click();
        coordinator.rest();
        assertThat(said(coordinator)).containsText("Accepted: ");
        assertThat(moves).hasCount(before - 1);

        coordinator
                .page()
                .locator(".lq-block", withText("Thornbury, Hesper, 27"))
                .click();
        press(coordinator, "The patient has been told");
        assertThat(coordinator.page().locator(".lq-block-told")).containsText("told");

        coordinator.open("sessions/day/" + monday.plusDays(1));
        assertThat(coordinator.page().locator(".lq-day-table tbody tr").first()).containsText("08:00");
        assertThat(coordinator.page().locator("main")).containsText("Thornbury, Hesper");
        assertThat(coordinator.page().locator("main")).containsText(TriageResult.NOTICE);
        assertAccessible(coordinator);
        picture(coordinator, "sessions-day");
        coordinator.page().emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.PRINT));
        assertThat(coordinator.page().locator(".lq-bar")).isHidden();
        assertThat(coordinator.page().locator(".lq-day-table").first()).isVisible();
        coordinator.page().screenshot(new Page.ScreenshotOptions().setPath(PICTURES.resolve("sessions-day-print.png")));
        coordinator.page().emulateMedia(new Page.EmulateMediaOptions().setMedia(Media.SCREEN));

        coordinator.open("sessions?week=" + monday);
        coordinator
                .page()
                .getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions().setName(Pattern.compile("Close: .*Clinic 08:00 to 09:00.*")))
                .click();
        dialog(coordinator).getByLabel("Why it is closed").fill("Dr Halvern is ill.");
        press(coordinator, "Close the session");
        assertThat(dialog(coordinator))
                .containsText("Thornbury, Hesper, clinic, who has been told of it, needs another place.");
        press(coordinator, "Close the session");
        assertThat(said(coordinator)).containsText("Closed. 3 patients in it need another place.");
        assertThat(session(coordinator, "Clinic 08:00 to 09:00")).containsText("Closed: Dr Halvern is ill.");
    }

    @Test
    void thePhysicianReadsAndTheManagerEntersWithoutSeeingPatients(Visitor physician, Visitor manager) {
        var id = approved("Lorne", "Brida");
        var day = monday.plusDays(8);
        enter(SessionKind.CLINIC, day, "08:00", "12:00", "Consulting room 2");
        var kept = office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals("Consulting room 2"))
                .findFirst()
                .orElseThrow();
        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 0, kept.id(), true)))
                .isInstanceOf(TimetableOutcome.Done.class);

        physician.signIn("physician").open("sessions?week=" + day);
        assertThat(physician.page().locator(".lq-block")).containsText("Lorne, Brida");
        for (var name : new String[] {"Enter a session", "Place", "Propose a plan", "Accept all"}) {
            assertThat(physician.button(name)).hasCount(0);
        }
        assertAccessible(physician);

        manager.signIn("manager").open("sessions?week=" + day);
        assertThat(manager.page().locator(".lq-block")).containsText("LQ-");
        assertThat(manager.page().locator("main")).not().containsText("Lorne");
        assertThat(manager.button("Enter a session")).hasCount(1);
        assertAccessible(manager);
        picture(manager, "sessions-manager");
        manager.open("sessions/day/" + day);
        assertThat(manager.page().locator("body")).not().containsText("Lorne");

        physician.open("sessions/day/nonsense");
        assertThat(physician.page().locator("main")).containsText("The address names no day.");
    }

    @Test
    void timeIsHeldByKeyboardAndStandsAtTheEndOfTheSession(Visitor coordinator) {
        for (var week = 8; week < 11; week++) {
            enter(SessionKind.PROCEDURE_ROOM, monday.plusWeeks(week).plusDays(4), "08:00", "16:00", "Angiography room");
        }
        coordinator.signIn("coordinator").open("sessions?week=" + monday.plusWeeks(8));
        coordinator
                .page()
                .getByRole(
                        AriaRole.BUTTON,
                        new Page.GetByRoleOptions()
                                .setName(Pattern.compile("Hold time: .*Procedure room 08:00 to 16:00.*")))
                .focus();
        coordinator.page().keyboard().press("Enter");
        var minutes = dialog(coordinator).getByLabel("Minutes held", exactly());
        minutes.fill("600");
        minutes.press("Tab");
        press(coordinator, "Hold");
        assertThat(dialog(coordinator)).containsText("Write minutes from 0 to 480, and days from 0 to 28");
        assertAccessible(coordinator);
        minutes.fill("120");
        minutes.press("Tab");
        dialog(coordinator).getByLabel("Later sessions like it hold the same").press("Space");
        picture(coordinator, "sessions-hold");
        press(coordinator, "Hold");
        assertThat(said(coordinator)).containsText("Held: 120 minutes. 2 later sessions hold the same.");
        var room = session(coordinator, "Procedure room 08:00 to 16:00");
        assertThat(room).containsText("120 min held for urgent cases until the end of ");
        assertThat(room.locator(".lq-held")).hasText("Held, 120 min");
        // 120 minutes of the 480 of the session, at its end.
        var body = room.locator(".lq-session-body").boundingBox();
        var held = room.locator(".lq-held").boundingBox();
        assertThat(held.height / body.height).isBetween(0.24, 0.26);
        assertThat(held.y + held.height).isBetween(body.y + body.height - 1, body.y + body.height + 1);
        assertAccessible(coordinator);
        picture(coordinator, "sessions-held");
    }

    private void enterTheOtherSessions() {
        for (var week = 0; week < 6; week++) {
            var first = monday.plusWeeks(week);
            enter(SessionKind.VASCULAR_LABORATORY, first, "08:00", "10:00", "Vascular laboratory");
            enter(SessionKind.CT, first.plusDays(2), "14:00", "16:00", "Scanner 2");
            enter(SessionKind.CLINIC, first.plusDays(3), "08:00", "12:00", "Consulting room 1");
            enter(SessionKind.PROCEDURE_ROOM, first.plusDays(4), "08:00", "16:00", "Angiography room");
        }
    }

    private void enter(SessionKind kind, LocalDate day, String start, String end, String place) {
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                kind,
                                day,
                                LocalTime.parse(start),
                                LocalTime.parse(end),
                                place,
                                "Operator of " + place,
                                Set.of(Capability.ARM_ACCESS, Capability.COVERED_STENT_STOCK)),
                        Optional.empty())))
                .isInstanceOf(TimetableOutcome.Done.class);
    }

    private long approved(String family, String given) {
        var draft = Draft.of(Arriving.REST_PAIN.replace(
                "2026-01-12", office(referrals::today).toString()));
        draft.set("patient.given", given);
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

    private static void fillDay(Visitor visitor, LocalDate day) {
        var field = dialog(visitor).getByLabel("Day", exactly());
        field.fill(DateTimeFormatter.ofPattern("dd/MM/yyyy").format(day));
        field.press("Tab");
    }

    /** Types until one is offered, takes it with the arrow and Enter, and so is led to the next field. */
    private static void chooseByKeyboard(Visitor visitor, String label, String words) {
        var field = visitor.field(label);
        field.fill(words);
        visitor.page()
                .locator("vaadin-combo-box-item:visible", new Page.LocatorOptions().setHasText(words))
                .first()
                .waitFor();
        field.press("ArrowDown");
        field.press("Enter");
        visitor.rest();
    }

    private static Locator session(Visitor visitor, String title) {
        return visitor.page().locator(".lq-session", withText(title));
    }

    private static Page.LocatorOptions withText(String words) {
        return new Page.LocatorOptions().setHasText(words);
    }

    private static Locator said(Visitor visitor) {
        return visitor.page().locator(".lq-said");
    }

    private static Locator dialog(Visitor visitor) {
        return visitor.page().locator("vaadin-dialog[opened]");
    }

    private static Locator.GetByLabelOptions exactly() {
        return new Locator.GetByLabelOptions().setExact(true);
    }

    private static void press(Visitor visitor, String words) {
        dialog(visitor)
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
