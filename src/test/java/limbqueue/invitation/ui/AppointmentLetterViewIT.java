package limbqueue.invitation.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.invitation.AppointmentLetters;
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
import limbqueue.timetable.Placed;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.security.access.AccessDeniedException;

/** The appointment letter in a browser. All people and rooms in it are invented. */
@InBrowser
class AppointmentLetterViewIT {

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private AppointmentLetters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    private Staff staff;
    private LocalDate day;

    @BeforeEach
    void whatDayItIs() {
        staff = new Staff(actingAs);
        day = office(referrals::today).plusDays(10);
    }

    @Test
    void theLetterIsReadAndPrintedFromTheListOfTheDay(Visitor coordinator) throws Exception {
        var placed = placed("Consulting room 1", "Thornbury", "17 Mill Row, Hollin Bridge");
        coordinator.signIn("coordinator").open("sessions/day/" + day);
        coordinator
                .page()
                .getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Appointment letter to Thornbury, Enid"))
                .click();
        coordinator.page().waitForURL("**/sessions/letter/" + placed.id());
        var text = coordinator.page().locator(".lq-letter-text");
        assertThat(text).containsText("Dear Enid Thornbury,");
        assertThat(text).containsText("17 Mill Row\nHollin Bridge");
        assertThat(text).containsText("time: please come at 08:00");
        assertThat(text).not().containsText("Sallow");
        assertThat(coordinator.page().locator("main")).containsText("has not been told of this time yet");
        assertThat(coordinator.page().locator("main")).not().containsText("has no address");
        assertThat(coordinator.accessibilityViolations())
                .filteredOn(line -> !line.contains("v-status-message") && !line.contains("vaadin-connection-indicator"))
                .isEmpty();
        coordinator.picture(Path.of("target/pictures/appointment-letter.png"), 1440);
        coordinator.picture(Path.of("target/pictures/appointment-letter-1024.png"), 1024);

        var answer = coordinator.page().request().get((String)
                coordinator.page().locator("a[aria-label^='PDF of']").evaluate("link => link.href"));
        assertThat(answer.headers().get("content-type")).startsWith("application/pdf");
        try (var pdf = Loader.loadPDF(answer.body())) {
            assertThat(pdf.getNumberOfPages()).isLessThanOrEqualTo(2);
            assertThat(new PDFTextStripper().getText(pdf)).contains("Dear Enid Thornbury,");
        }
    }

    @Test
    void whoShouldNotComeGetsNoLetterAndTheOfficeIsToldWhy(Visitor coordinator) {
        var placed = placed("Consulting room 2", "Sallow", "");
        coordinator.signIn("coordinator").open("sessions/letter/" + placed.id());
        assertThat(coordinator.page().locator("main")).containsText("The referral has no address of the patient.");
        assertThatThrownBy(() -> staff.as("manager", () -> letters.of(placed.id())))
                .isInstanceOf(AccessDeniedException.class);

        var kept = filled("Consulting room 2").kept();
        assertThat(office(() -> sessions.close(kept.id(), kept.version(), "The room is painted.", true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        assertThatThrownBy(() -> office(() -> letters.pdf(placed.id())))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("The session is closed.");
        coordinator.open("sessions/letter/" + placed.id());
        assertThat(coordinator.page().locator("main")).containsText("Find another place for Sallow, Enid first.");
        for (var nonsense : new String[] {"0", "nonsense", "9999999999999999999999"}) {
            coordinator.open("sessions/letter/" + nonsense);
            assertThat(coordinator.page().locator("main")).containsText("no");
            assertThat(coordinator.heading("Appointment letter")).isVisible();
        }
    }

    private Placed placed(String place, String family, String address) {
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                SessionKind.CLINIC,
                                day,
                                LocalTime.of(8, 0),
                                LocalTime.NOON,
                                place,
                                "Operator of " + place,
                                Set.of()),
                        Optional.empty())))
                .isInstanceOf(TimetableOutcome.Done.class);
        var id = approved(family, address);
        var session = filled(place).kept().id();
        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 0, session, true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        return filled(place).patients().getFirst();
    }

    private FilledSession filled(String place) {
        return office(() -> sessions.week(day)).on(day).stream()
                .filter(one -> one.kept().session().place().equals(place))
                .findFirst()
                .orElseThrow();
    }

    private long approved(String family, String address) {
        var draft = Draft.of(Arriving.REST_PAIN.replace(
                "2026-01-12", office(referrals::today).toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        draft.set("patient.address", address);
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
}
