package limbqueue.prospect.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.LocatorAssertions;
import com.microsoft.playwright.options.AriaRole;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import limbqueue.access.ActingAs;
import limbqueue.booking.SessionKind;
import limbqueue.document.Draft;
import limbqueue.governance.ManyCourses;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.HeldTimes;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import limbqueue.triage.TriageResult;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.JdbcTemplate;

/** The forecast in a browser. All people and rooms in it are invented. */
@InBrowser
class ForecastViewIT {

    private static final Path PICTURES = Path.of("target/pictures");

    @Autowired
    private HeldTimes heldTimes;

    @Autowired
    private ActingAs actingAs;

    @BeforeAll
    static void aPracticeAtWork(
            @Autowired JdbcTemplate jdbc,
            @Autowired Sessions sessions,
            @Autowired Referrals referrals,
            @Autowired ActingAs actingAs) {
        ManyCourses.add(jdbc, 400);
        var staff = new Staff(actingAs);
        var today = staff.as("coordinator", sessions::today);
        for (var day : new int[] {1, 3}) {
            enter(staff, sessions, today.plusDays(day));
        }
        for (var family : new String[] {"Sallow", "Thornbury", "Marchbank", "Lorne", "Hale", "Denholm"}) {
            approved(staff, referrals, today, family);
        }
    }

    private static void enter(Staff staff, Sessions sessions, LocalDate day) {
        assertThat(staff.as(
                        "coordinator",
                        () -> sessions.enter(
                                new EnteredSession(
                                        SessionKind.PROCEDURE_ROOM,
                                        day,
                                        LocalTime.of(8, 0),
                                        LocalTime.of(14, 0),
                                        "Angiography room",
                                        "Dr Imre",
                                        Set.of()),
                                Optional.of(day.plusWeeks(11)))))
                .isInstanceOf(TimetableOutcome.Done.class);
    }

    private static void approved(Staff staff, Referrals referrals, LocalDate today, String family) {
        var draft = Draft.of(Arriving.REST_PAIN.replace("2026-01-12", today.toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        var queued = staff.as("coordinator", () -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
        staff.as("physician", () -> referrals.decide(queued.id(), queued.version(), new Decision.Approve()));
    }

    @Test
    void theManagerSeesTheForecastTriesASessionAndHoldsTime(Visitor manager) throws IOException {
        manager.signIn("manager").open("sessions");
        manager.page()
                .getByRole(
                        AriaRole.LINK,
                        new Page.GetByRoleOptions().setName("Forecast").setExact(true))
                .click();
        manager.page().waitForURL("**/forecast");
        workedOut(manager);

        var main = manager.page().locator("main");
        assertThat(main).containsText(TriageResult.NOTICE);
        assertThat(main).containsText("24 sessions of the procedure room with 8640 minutes are open until ");
        assertThat(main).containsText("6 wait now");
        assertThat(main).containsText("nothing of them is held for urgent cases.");
        assertThat(manager.page().content()).doesNotContain("Thornbury");
        assertThat(main.locator("svg[role=img] > title").allTextContents())
                .containsExactly(
                        "Days waited, within 14 days",
                        "Target dates missed, within 14 days",
                        "Urgent cases that find held room in time",
                        "Held minutes that nobody uses");
        assertThat(table(manager, "Forecast by tier").locator("tbody tr")).hasCount(4);
        assertThat(table(manager, "Forecast within 14 days").locator("tbody tr"))
                .hasCount(12);
        assertThat(manager.accessibilityViolations()).isEmpty();
        pictures(manager, "forecast");

        manager.page().getByLabel("Week by week").focus();
        manager.page().keyboard().press("Enter");
        manager.focusedEntry(2).waitFor();
        manager.page().keyboard().press("ArrowDown");
        manager.focusedEntry(3).waitFor();
        manager.page().keyboard().press("Enter");
        manager.rest();
        assertThat(table(manager, "Forecast within 6 weeks").locator("tbody tr"))
                .hasCount(12);

        manager.field("Minutes").fill("20");
        manager.field("Minutes").press("Tab");
        manager.button("Try this session").press("Enter");
        assertThat(manager.page().getByRole(AriaRole.ALERT).locator("visible=true"))
                .hasText("Write the minutes of the session as a whole number from 30 to 720.");
        manager.field("Minutes").fill("300");
        manager.field("Minutes").press("Tab");
        manager.button("Try this session").press("Enter");
        assertThat(manager.heading("With a session of 300 minutes on every "))
                .isVisible(new LocatorAssertions.IsVisibleOptions().setTimeout(60_000));
        assertThat(table(manager, "One more session a week").locator("tbody tr"))
                .hasCount(4);

        manager.page().getByLabel("Minutes held a week").focus();
        manager.page().keyboard().press("Enter");
        manager.focusedEntry(1).waitFor();
        manager.page().keyboard().press("ArrowDown");
        manager.focusedEntry(2).waitFor();
        manager.page().keyboard().press("ArrowDown");
        manager.focusedEntry(3).waitFor();
        manager.page().keyboard().press("Enter");
        manager.button("Hold this from now on").press("Enter");
        assertThat(manager.page().locator(".lq-forecast-hold .lq-figure-says"))
                .containsText(
                        Pattern.compile("[1-9]\\d* minutes a week are held now \\(.*\\), released 2 days before, as "));
        assertThat(manager.page().locator(".lq-said")).containsText("sessions were changed.");
        assertThat(manager.page().locator(".lq-said"))
                .containsText(
                        "Worked out from what is stored now.",
                        new LocatorAssertions.ContainsTextOptions().setTimeout(60_000));
        assertThat(main).containsText(Pattern.compile("[1-9]\\d* of these minutes are held for urgent cases\\."));
        manager.rest();
        assertThat(new Staff(actingAs).as("manager", heldTimes::chosen)).hasValueSatisfying(choice -> {
            assertThat(choice.inAWeek()).isPositive();
            assertThat(choice.releaseDays()).isEqualTo(2);
        });
        assertThat(manager.accessibilityViolations()).isEmpty();
        pictures(manager, "forecast-held");

        var download = manager.page()
                .waitForDownload(() -> manager.page()
                        .getByRole(
                                AriaRole.LINK,
                                new Page.GetByRoleOptions().setName("Take the list of forecast by week as CSV"))
                        .click());
        download.saveAs(PICTURES.resolve("forecast-by-week.csv"));
        assertThat(Files.readAllLines(PICTURES.resolve("forecast-by-week.csv")))
                .hasSize(1 + 4 * 12)
                .first()
                .asString()
                .contains("Tier,Week,Begins");
    }

    @Test
    void thePhysicianReadsAndDoesNotChoose(Visitor physician, Visitor coordinator) {
        physician.signIn("physician").open("forecast");
        workedOut(physician);
        assertThat(physician.page().locator("main")).containsText("The manager chooses. Every plan obeys it.");
        assertThat(physician.button("Hold this from now on")).hasCount(0);
        assertThat(physician.accessibilityViolations()).isEmpty();

        coordinator.signIn("coordinator").open("sessions");
        assertThat(coordinator
                        .page()
                        .getByRole(
                                AriaRole.LINK,
                                new Page.GetByRoleOptions().setName("Forecast").setExact(true)))
                .hasCount(0);
    }

    private static void workedOut(Visitor visitor) {
        assertThat(visitor.page().locator(".lq-forecast > .lq-said"))
                .hasText(
                        "Worked out from what is stored now.",
                        new LocatorAssertions.HasTextOptions().setTimeout(60_000));
        visitor.rest();
    }

    private static Locator table(Visitor visitor, String name) {
        return visitor.page()
                .getByRole(
                        AriaRole.TABLE,
                        new Page.GetByRoleOptions().setName(name).setExact(true));
    }

    private static void pictures(Visitor visitor, String name) {
        for (var width : new int[] {1440, 1024}) {
            visitor.page().setViewportSize(width, 900);
            visitor.rest();
            visitor.page()
                    .screenshot(new Page.ScreenshotOptions()
                            .setPath(PICTURES.resolve(name + "-" + width + ".png"))
                            .setFullPage(true));
            assertThat(visitor.page().evaluate("document.documentElement.scrollWidth <= window.innerWidth"))
                    .as("nothing is out of sight at %d", width)
                    .isEqualTo(true);
        }
        visitor.page().setViewportSize(1440, 900);
    }
}
