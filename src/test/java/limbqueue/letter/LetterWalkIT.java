package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import limbqueue.access.ActingAs;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.directory.CorrectOutcome;
import limbqueue.directory.Directory;
import limbqueue.directory.DirectoryEntry;
import limbqueue.directory.DirectoryKind;
import limbqueue.preparation.CaseOutcome;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.PreparationOutcome;
import limbqueue.preparation.Standing;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A referral goes through every step, and the text of each letter is read back from its PDF. All people are invented. */
@OnPostgres
class LetterWalkIT {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.UK);
    private static final String OPERATOR = "Dr Quill Operator";
    private static final String NOTE = "Wire lost, see room diary";

    @Autowired
    private Letters letters;

    @Autowired
    private Referrals referrals;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Preparation preparation;

    @Autowired
    private Directory directory;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;
    private PatientCourse course;
    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        staff = new Staff(actingAs);
        course = new PatientCourse(staff, referrals, sessions, appointments, jdbc, OPERATOR);
        today = course.today();
    }

    @Test
    void everyStepWritesItsLetterAndEachIsReadBackFromItsPdf() {
        var queued = course.queued("Marl", "Dr Ines Farrow");
        var id = queued.id();
        var asked = course.decided(queued, new Decision.AskForInformation("Which medicines does she take?"));
        var again = office(() -> ((SubmitOutcome.Submitted) referrals.submit(asked.id(), asked.version())).referral());
        course.decided(again, new Decision.Approve());

        var clinic = course.session(SessionKind.CLINIC, 3, "Consulting room 3");
        var later = course.session(SessionKind.CLINIC, 4, "Consulting room 4");
        course.place(id, StepKind.CLINIC, clinic);
        course.told(clinic, 3);
        left(id);
        course.place(id, StepKind.CLINIC, later);
        course.told(later, 4);
        left(id);
        var placed = course.placed(later, 4);
        assertThat(office(() -> appointments.takeOut(placed.id(), placed.version(), true)))
                .isEqualTo(new TimetableOutcome.Done(List.of()));

        var room = course.session(SessionKind.PROCEDURE_ROOM, 6, "Angiography 2");
        course.place(id, StepKind.PROCEDURE, room);
        course.told(room, 6);
        finish(id);

        var texts = pages(id);
        assertThat(texts.keySet())
                .containsExactlyInAnyOrder(
                        LetterKind.RECEIVED,
                        LetterKind.INFORMATION_NEEDED,
                        LetterKind.TRIAGED,
                        LetterKind.BOOKED,
                        LetterKind.CHANGED,
                        LetterKind.CANCELLED,
                        LetterKind.DONE,
                        LetterKind.PATIENT_APPOINTMENT,
                        LetterKind.PATIENT_CHANGED,
                        LetterKind.PATIENT_CANCELLED);
        assertThat(texts.get(LetterKind.RECEIVED)).contains("Your referral reached us");
        assertThat(texts.get(LetterKind.INFORMATION_NEEDED)).contains("Which medicines does she take?");
        assertThat(texts.get(LetterKind.TRIAGED))
                .contains("decided by Dr Imogen Tarrant")
                .contains("a statin, unless");
        assertThat(texts.get(LetterKind.CHANGED))
                .contains("It is now on " + DAY.format(today.plusDays(4)) + " at 08:00, Consulting room 4.");
        assertThat(texts.get(LetterKind.CANCELLED))
                .contains("a consultation on " + DAY.format(today.plusDays(4)) + " is cancelled");
        // The last of its kind: of the procedure.
        assertThat(texts.get(LetterKind.BOOKED))
                .contains("the procedure on the leg arteries: " + DAY.format(today.plusDays(6))
                        + " at 08:00, Angiography 2.");
        assertThat(texts.get(LetterKind.PATIENT_APPOINTMENT))
                .contains("Dear Enid Marl,")
                .contains("When: " + DAY.format(today.plusDays(6)) + " at 08:00.")
                .contains("Do not stop a medicine on your own.");
        assertThat(texts.get(LetterKind.PATIENT_CHANGED)).contains("New day: " + DAY.format(today.plusDays(4)));
        assertThat(texts.get(LetterKind.PATIENT_CANCELLED)).contains("You are still on our list.");
        assertThat(texts.get(LetterKind.DONE))
                .contains("There was a complication. The physician who did it will call you about it.")
                .contains("Follow-up: we will see the patient again");
        assertThat(texts.values())
                .allSatisfy(text -> assertThat(text)
                        .doesNotContain(OPERATOR)
                        .doesNotContain(NOTE)
                        .doesNotContain("left groin"));
    }

    @Test
    void theOtherEndsHaveTheirLetters() {
        var returned = course.queued("Thorne", "Dr Ines Farrow");
        course.decided(returned, new Decision.ReturnToReferrer("The complaints come from the spine."));
        var sent = course.queued("Vane", "Dr Ines Farrow");
        course.decided(sent, new Decision.SendToHospital("The vascular team, by telephone."));

        assertThat(pages(returned.id()).get(LetterKind.RETURNED))
                .contains("The complaints come from the spine.")
                .contains("decided by Dr Imogen Tarrant");
        assertThat(pages(sent.id()).get(LetterKind.SENT_TO_HOSPITAL))
                .contains("The vascular team, by telephone.")
                .contains("must be seen in hospital on the same day");
    }

    @Test
    void aDoctorWhoWantsSpanishIsWrittenToInSpanishAndThePatientAsThePracticeWrites() {
        var first = course.queued("Rowan", "Dr Nuria Casal");
        var entry = office(() -> directory.known(DirectoryKind.REFERRER)).stream()
                .filter(one -> one.name().equals("Dr Nuria Casal"))
                .findFirst()
                .orElseThrow();
        assertThat(office(() -> directory.correct(in(entry, "xx"))))
                .isInstanceOfSatisfying(
                        CorrectOutcome.NotRight.class,
                        not -> assertThat(not.why()).contains("No letter is written in this language"));
        assertThat(office(() -> directory.correct(in(entry, "es")))).isInstanceOf(CorrectOutcome.Corrected.class);

        course.decided(first, new Decision.Approve());
        var clinic = course.session(SessionKind.CLINIC, 8, "Consulting room 8");
        course.place(first.id(), StepKind.CLINIC, clinic);
        course.told(clinic, 8);

        var texts = pages(first.id());
        assertThat(texts.get(LetterKind.RECEIVED)).contains("Your referral has reached us");
        assertThat(texts.get(LetterKind.TRIAGED))
                .contains("Estimado/a Dr Nuria Casal:")
                .contains(
                        "pierna izquierda: categoría 4 de Rutherford (dolor isquémico en reposo), estadio III de Fontaine")
                .contains("Prevalece el protocolo local.");
        assertThat(texts.get(LetterKind.BOOKED)).contains("Hemos dado cita a Enid Rowan");
        assertThat(texts.get(LetterKind.PATIENT_APPOINTMENT)).contains("Dear Enid Rowan,");
    }

    @Test
    void aPlaceThatNobodyWasToldOfAndThatIsTakenOutWritesNothing() {
        var queued = course.queued("Wick", "Dr Ines Farrow");
        course.decided(queued, new Decision.Approve());
        var clinic = course.session(SessionKind.CLINIC, 10, "Consulting room 10");
        course.place(queued.id(), StepKind.CLINIC, clinic);
        var placed = course.placed(clinic, 10);
        office(() -> appointments.takeOut(placed.id(), placed.version(), true));

        assertThat(pages(queued.id()).keySet()).containsExactlyInAnyOrder(LetterKind.RECEIVED, LetterKind.TRIAGED);
    }

    private static DirectoryEntry in(DirectoryEntry entry, String language) {
        return new DirectoryEntry(
                entry.id(),
                entry.version(),
                entry.kind(),
                entry.name(),
                entry.organisation(),
                entry.address(),
                entry.phone(),
                entry.fax(),
                entry.email(),
                entry.prefers(),
                language,
                entry.lastEntered());
    }

    /** The text of the last letter of each kind, in one line. */
    private Map<LetterKind, String> pages(long id) {
        var texts = new EnumMap<LetterKind, String>(LetterKind.class);
        office(() -> letters.about(id)).reversed().forEach(letter -> {
            var pdf = office(() -> letters.pdf(letter.id()));
            try (var document = Loader.loadPDF(pdf)) {
                texts.put(letter.kind(), new PDFTextStripper().getText(document).replaceAll("\\s+", " "));
            } catch (IOException unreadable) {
                throw new UncheckedIOException(unreadable);
            }
        });
        return texts;
    }

    /** To the room, whatever the gate says of the work-up, and out of it. */
    private void finish(long id) {
        for (var item : office(() -> preparation.get(id)).red()) {
            office(() -> preparation.track(id, item.code(), item.version(), new Standing.In(today)));
        }
        if (!office(() -> preparation.get(id)).readiness().open()) {
            var facts = office(() -> preparation.get(id)).facts();
            assertThat(staff.as("physician", () -> preparation.override(id, facts, "The leg does not wait.")))
                    .isEqualTo(new PreparationOutcome.Done());
        }
        assertThat(office(() -> preparation.sendToRoom(id))).isEqualTo(new PreparationOutcome.Done());
        assertThat(office(() -> preparation.record(id, 90, "left groin", CaseOutcome.COMPLICATION, NOTE)))
                .isEqualTo(new PreparationOutcome.Done());
    }

    /** The letters about a date have left. */
    private void left(long id) {
        office(() -> letters.about(id)).stream()
                .filter(letter -> letter.sentAt().isEmpty() && !letter.kind().tellsOfDecision())
                .forEach(letter -> office(() -> letters.markSent(letter.id())));
    }

    private <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }
}
