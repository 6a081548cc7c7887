package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDateTime;
import limbqueue.access.ActingAs;
import limbqueue.access.NotPossibleException;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.Placed;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** The letter of an appointment is one, wherever it is asked for. All people and rooms are invented. */
@OnPostgres
class AppointmentLettersIT {

    @Autowired
    private AppointmentLetters appointmentLetters;

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;
    private PatientCourse course;

    @BeforeEach
    void open() {
        staff = new Staff(actingAs);
        course = new PatientCourse(staff, referrals, sessions, appointments, jdbc, "Dr Quill Writer");
    }

    @Test
    void theLetterIsWrittenOnceAndStandsWhenThePatientIsTold() {
        var placed = placed("Garland", 41, "Room P");
        assertThat(course.office(() -> appointmentLetters.of(placed.id())))
                .returns(false, AppointmentLetters.Telling::told)
                .returns(true, AppointmentLetters.Telling::addressed)
                .satisfies(telling -> assertThat(telling.letter()).isEmpty());

        var letter = course.office(() -> appointmentLetters.write(placed.id()));
        assertThat(course.office(() -> appointmentLetters.write(placed.id()))).isEqualTo(letter);
        assertThat(course.office(() -> appointmentLetters.of(placed.id())).letter())
                .contains(letter);
        assertThat(course.office(() -> letters.about(placed.referralId())))
                .filteredOn(one -> one.id() == letter)
                .singleElement()
                .satisfies(one -> {
                    assertThat(one.kind()).isEqualTo(LetterKind.PATIENT_APPOINTMENT);
                    assertThat(one.text()).contains("Dear Enid Garland,", "3 Fuller Row\nMillbeck", "Where: Room P.");
                });

        course.told(placed);

        assertThat(course.office(() -> letters.about(placed.referralId())))
                .extracting(Letter::kind)
                .containsOnlyOnce(LetterKind.PATIENT_APPOINTMENT, LetterKind.BOOKED);
        assertThat(course.office(() -> appointmentLetters.of(placed.id())).letter())
                .contains(letter);
    }

    @Test
    void whoShouldNotComeGetsNoLetterAndTheOfficeIsToldWhy() {
        var placed = placed("Sallow", 42, "Room Q");
        assertThatThrownBy(() -> staff.as("manager", () -> appointmentLetters.of(placed.id())))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> staff.as("physician", () -> appointmentLetters.write(placed.id())))
                .isInstanceOf(AccessDeniedException.class);
        assertThatThrownBy(() -> course.office(() -> appointmentLetters.of(0)))
                .isInstanceOf(NotPossibleException.class)
                .hasMessageContaining("no such appointment");

        var kept = course.filled(placed.session(), 42).kept();
        assertThat(course.office(() -> sessions.close(kept.id(), kept.version(), "The room is painted.", true)))
                .isInstanceOf(TimetableOutcome.Done.class);
        assertThatThrownBy(() -> course.office(() -> appointmentLetters.write(placed.id())))
                .isInstanceOf(NotPossibleException.class)
                .hasMessage("The session is closed. Find another place for Sallow, Enid first.");
    }

    @ParameterizedTest
    @CsvSource({
        "2026-03-05T08:00, 2026-03-05T08:00",
        "2026-03-05T08:04, 2026-03-05T08:00",
        "2026-03-05T08:05, 2026-03-05T08:05",
        "2026-03-05T08:59, 2026-03-05T08:55",
        "2026-03-05T00:01, 2026-03-05T00:00"
    })
    void patientsComeAtTheFullFiveMinutesBefore(LocalDateTime expected, LocalDateTime told) {
        assertThat(Visit.expected(StepKind.CLINIC, expected, "Room").starts()).isEqualTo(told);
    }

    private Placed placed(String family, int inDays, String room) {
        var id = course.decided(course.queued(family, "Dr Ines Farrow"), new Decision.Approve())
                .id();
        var session = course.session(SessionKind.CLINIC, inDays, room);
        course.place(id, StepKind.CLINIC, session);
        return course.placed(session, inDays);
    }
}
