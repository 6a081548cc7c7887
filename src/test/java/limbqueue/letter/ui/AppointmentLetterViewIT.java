package limbqueue.letter.ui;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import java.nio.file.Path;
import limbqueue.access.ActingAs;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.letter.PatientCourse;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.testbed.InBrowser;
import limbqueue.testbed.Staff;
import limbqueue.testbed.Visitor;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.Sessions;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** From the list of a day to the letter on the desk. All people and rooms are invented. */
@InBrowser
class AppointmentLetterViewIT {

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Referrals referrals;

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private ActingAs actingAs;

    @Test
    void theListOfTheDayLeadsToTheLetterThatIsWrittenOnce(Visitor coordinator) {
        var course =
                new PatientCourse(new Staff(actingAs), referrals, sessions, appointments, jdbc, "Operator of room 1");
        var id = course.decided(course.queued("Thornbury", "Dr Ines Farrow"), new Decision.Approve())
                .id();
        var session = course.session(SessionKind.CLINIC, 10, "Consulting room 1");
        course.place(id, StepKind.CLINIC, session);
        var day = "sessions/day/" + course.today().plusDays(10);
        var page = coordinator.signIn("coordinator").open(day).page();
        var link = page.getByRole(
                AriaRole.LINK, new Page.GetByRoleOptions().setName("Appointment letter to Thornbury, Enid"));

        link.click();
        assertThat(page.locator("main")).containsText("has not been told of this time yet");
        assertThat(page.locator("main")).containsText("at 08:00, Consulting room 1.");
        assertThat(coordinator.accessibilityViolations()).isEmpty();
        coordinator.picture(Path.of("target/pictures/appointment-letter.png"), 1440);
        coordinator.picture(Path.of("target/pictures/appointment-letter-1024.png"), 1024);
        coordinator.button("Write the letter").click();
        coordinator.rest();

        var text = page.locator(".lq-letter-preview pre");
        assertThat(text).containsText("Dear Enid Thornbury,");
        assertThat(text).containsText("3 Fuller Row\nMillbeck");
        assertThat(text).containsText("at 08:00.");
        assertThat(page.locator("nav a[aria-current=page]")).hasText("Letters");
        coordinator.open(day);
        link.click();
        assertThat(text).containsText("Dear Enid Thornbury,");
        assertThat(jdbc.sql("select count(*) from letter where referral = :id and kind = 'PATIENT_APPOINTMENT'")
                        .param("id", id)
                        .query(Integer.class)
                        .single())
                .isEqualTo(1);

        for (var nonsense : new String[] {"0", "nonsense", "9999999999999999999999"}) {
            coordinator.open("sessions/letter/" + nonsense);
            assertThat(page.locator("main")).containsText("no");
            assertThat(coordinator.heading("Appointment letter")).isVisible();
        }
        coordinator.open("letters/words");
        assertThat(page.locator("nav a[aria-current=page]")).hasText("Letters");
    }
}
