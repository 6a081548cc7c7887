package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDateTime;
import java.time.LocalTime;
import java.util.List;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.SessionOrder;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Dates change before and after the letters about them have left. All people are invented. */
@OnPostgres
class DateLettersIT {

    private static final List<LetterKind> GIVEN = List.of(LetterKind.BOOKED, LetterKind.PATIENT_APPOINTMENT);

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private SessionOrder order;

    @Autowired
    private Preparation preparation;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private PatientCourse course;

    @BeforeEach
    void open() {
        course = new PatientCourse(new Staff(actingAs), referrals, sessions, appointments, jdbc, "Dr Quill Sessioner");
    }

    @Test
    void aLetterThatHasNotLeftGivesWayToTheOneAboutTheNewDate() {
        var id = approved("Ashdown");
        var first = course.session(SessionKind.CLINIC, 21, "Room A");
        var second = course.session(SessionKind.CLINIC, 22, "Room B");
        course.place(id, StepKind.CLINIC, first);
        course.told(first, 21);
        assertThat(kinds(id)).containsExactlyElementsOf(GIVEN);

        course.place(id, StepKind.CLINIC, second);
        assertThat(kinds(id)).as("moved, and the new date not told yet").isEmpty();
        assertThat(jdbc.sql("""
                        select count(*) from outbox o join letter l on l.id = o.letter
                        where l.referral = :id and l.visit is not null and o.state = 'WITHDRAWN'
                        """).param("id", id).query(Integer.class).single())
                .as("neither leaves any more")
                .isEqualTo(2);

        course.told(second, 22);
        assertThat(kinds(id)).as("whoever had no letter has no change").containsExactlyElementsOf(GIVEN);
        assertThat(about(id)).allSatisfy(letter -> assertThat(letter.text()).contains("Room B"));
    }

    @Test
    void whoseLetterHasLeftIsToldOfTheChangeAndTheOtherOfTheDate() {
        var id = approved("Birchall");
        var first = course.session(SessionKind.CLINIC, 23, "Room C");
        var second = course.session(SessionKind.CLINIC, 24, "Room D");
        course.place(id, StepKind.CLINIC, first);
        course.told(first, 23);
        markSent(id, LetterKind.PATIENT_APPOINTMENT);

        course.place(id, StepKind.CLINIC, second);
        course.told(second, 24);

        assertThat(kinds(id))
                .containsExactlyInAnyOrder(
                        LetterKind.PATIENT_APPOINTMENT, LetterKind.BOOKED, LetterKind.PATIENT_CHANGED);

        var placed = course.placed(second, 24);
        course.office(() -> appointments.takeOut(placed.id(), placed.version(), true));

        assertThat(kinds(id))
                .as("the change had not left, and the doctor had heard of no date")
                .containsExactlyInAnyOrder(LetterKind.PATIENT_APPOINTMENT, LetterKind.PATIENT_CANCELLED);
        assertThat(about(id).getLast().text()).contains("will not take place");
    }

    @Test
    void aDateThatIsBackWhereTheLetterSaidNeedsNoOther() {
        var id = approved("Cope");
        var first = course.session(SessionKind.CLINIC, 25, "Room E");
        var second = course.session(SessionKind.CLINIC, 26, "Room F");
        course.place(id, StepKind.CLINIC, first);
        course.told(first, 25);
        GIVEN.forEach(kind -> markSent(id, kind));

        course.place(id, StepKind.CLINIC, second);
        course.told(second, 26);
        course.place(id, StepKind.CLINIC, first);
        course.told(first, 25);

        assertThat(kinds(id)).containsExactlyInAnyOrderElementsOf(GIVEN);
    }

    @Test
    void anotherOrderThatChangesTheTimeIsAChange() {
        var first = approved("Dalby");
        var second = approved("Eames");
        var session = course.session(SessionKind.CLINIC, 27, "Room G");
        course.place(first, StepKind.CLINIC, session);
        course.place(second, StepKind.CLINIC, session);
        course.filled(session, 27).patients().forEach(course::told);
        GIVEN.forEach(kind -> markSent(first, kind));

        var placed = course.filled(session, 27).patients().getFirst();
        assertThat(course.office(() -> order.move(placed.id(), placed.version(), false, true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        assertThat(kinds(second)).as("the time told does not hold").isEmpty();

        var starts = course.filled(session, 27);
        starts.patients().forEach(course::told);
        assertThat(kinds(first))
                .containsExactlyInAnyOrder(
                        LetterKind.BOOKED,
                        LetterKind.PATIENT_APPOINTMENT,
                        LetterKind.CHANGED,
                        LetterKind.PATIENT_CHANGED);
        assertThat(about(first).getLast().text())
                .contains(" at " + toCome(starts.startsFor(starts.patients().getLast())));
        assertThat(kinds(second)).containsExactlyInAnyOrderElementsOf(GIVEN);
        assertThat(about(second)).allSatisfy(letter -> assertThat(letter.text()).contains("at 08:00"));
    }

    @Test
    void aProcedureThatIsBookedOutsideOfTheSessionsHasItsLettersToo() {
        var id = approved("Farrant");
        booked(id, 0, 30, "Theatre 4");
        assertThat(kinds(id)).containsExactlyElementsOf(GIVEN);
        assertThat(about(id)).allSatisfy(letter -> assertThat(letter.text()).contains("at 09:15", "Theatre 4"));

        GIVEN.forEach(kind -> markSent(id, kind));
        booked(id, 1, 31, "Theatre 4");

        assertThat(kinds(id)).endsWith(LetterKind.CHANGED, LetterKind.PATIENT_CHANGED);
    }

    /** Patients are asked to come at the full five minutes before. */
    private static LocalTime toCome(LocalDateTime expected) {
        return LocalTime.of(expected.getHour(), expected.getMinute() - expected.getMinute() % 5);
    }

    private void booked(long id, int version, int inDays, String room) {
        assertThat(course.office(() -> preparation.book(
                        id, version, course.today().plusDays(inDays).atTime(LocalTime.of(9, 15)), room)))
                .isEqualTo(new PreparationOutcome.Done());
    }

    private long approved(String family) {
        return course.decided(course.queued(family, "Dr Ines Farrow"), new Decision.Approve())
                .id();
    }

    /** The letters about dates that stand, oldest first. */
    private List<Letter> about(long id) {
        return course.office((Callable<List<Letter>>) () -> letters.about(id)).reversed().stream()
                .filter(letter -> letter.kind().name().matches("(PATIENT_)?(BOOKED|APPOINTMENT|CHANGED|CANCELLED)"))
                .toList();
    }

    private List<LetterKind> kinds(long id) {
        return about(id).stream().map(Letter::kind).toList();
    }

    private void markSent(long id, LetterKind kind) {
        about(id).stream()
                .filter(letter -> letter.kind() == kind && letter.sentAt().isEmpty())
                .forEach(letter -> course.office(() -> letters.markSent(letter.id())));
    }
}
