package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.stream.IntStream;
import limbqueue.access.ActingAs;
import limbqueue.booking.HeldTime;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.practice.DemoRequested;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.transaction.support.TransactionTemplate;

/** The demo as it is shipped: its sessions, and who waits for a place in them. */
@OnPostgres
class DemoSessionsIT {

    @Autowired
    private ApplicationEventPublisher events;

    @Autowired
    private TransactionTemplate transaction;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private ActingAs actingAs;

    @Test
    void theDemoHasSessionsOfEveryKindNextWeekAndCasesToPlace() {
        var staff = new Staff(actingAs);
        actingAs.person(
                "coordinator",
                () -> transaction.executeWithoutResult(_ ->
                        events.publishEvent(new DemoRequested(Path.of("demo-referrals"), "coordinator", "physician"))));

        var today = staff.as("coordinator", sessions::today);
        assertThat(staff.as("coordinator", () -> sessions.week(today.plusWeeks(1)))
                        .sessions())
                .extracting(one -> one.kept().session().kind())
                .contains(SessionKind.values());
        assertThat(IntStream.range(0, 18)
                        .mapToObj(today::plusWeeks)
                        .flatMap((LocalDate week) ->
                                staff.as("coordinator", () -> sessions.week(week)).sessions().stream())
                        .filter(one -> one.kept().closedBecause().isPresent()))
                .hasSize(1);
        assertThat(staff.as("coordinator", () -> sessions.week(today.plusWeeks(1)))
                        .sessions())
                .extracting(one -> one.kept().session().held())
                .contains(new HeldTime(90, 2), new HeldTime(0, 2));
        // Whoever loads the demo sees a week that is lived in, whatever day of the week it is.
        var next =
                staff.as("coordinator", () -> sessions.week(today.plusWeeks(1))).sessions();
        assertThat(next)
                .allSatisfy(
                        one -> assertThat(one.patients()).as(one.kept().words()).isNotEmpty());
        assertThat(next).extracting(FilledSession::over).containsOnly(0L);
        assertThat(next.stream().flatMap(one -> one.patients().stream()).toList())
                .hasSizeGreaterThan(15)
                .extracting(Placed::told)
                .contains(true, false);
        assertThat(staff.as("coordinator", appointments::toPlace))
                .extracting(OpenStep::step)
                .contains(StepKind.CLINIC, StepKind.PROCEDURE);
    }
}
