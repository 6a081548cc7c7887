package limbqueue.timetable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicInteger;
import limbqueue.access.ActingAs;
import limbqueue.booking.Capability;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.preparation.Preparation;
import limbqueue.preparation.Standing;
import limbqueue.referral.Arriving;
import limbqueue.referral.Decision;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.OnPostgres;
import limbqueue.testbed.Staff;
import limbqueue.timetable.ShortNoticeList.Line;
import limbqueue.timetable.TimetableOutcome.Done;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.security.access.AccessDeniedException;

/** Who can come at short notice, on a database. All people and rooms in it are invented. */
@OnPostgres
class ShortNoticeIT {

    private static final AtomicInteger NUMBER = new AtomicInteger();

    @Autowired
    private ShortNotice shortNotice;

    @Autowired
    private Sessions sessions;

    @Autowired
    private Appointments appointments;

    @Autowired
    private Preparation preparation;

    @Autowired
    private Referrals referrals;

    @Autowired
    private ActingAs actingAs;

    @Autowired
    private JdbcClient jdbc;

    private Staff staff;
    private LocalDate today;

    @BeforeEach
    void whatDayItIs() {
        staff = new Staff(actingAs);
        today = office(referrals::today);
    }

    @Test
    void theFirstFreePlaceIsOfferedWithTheTelephoneNumberUntilItIsTakenOrThePatientCannotCome() {
        var id = approved("Thornbury");
        done(id, StepKind.PRESSURES_AND_DUPLEX, "VASCULAR_LABORATORY");
        done(id, StepKind.CTA, "CT");
        var late = session(SessionKind.CLINIC, 6);
        var soon = session(SessionKind.CLINIC, 1);
        var line = line(id).orElseThrow();
        assertThat(line.free().kept().id()).isEqualTo(soon);
        assertThat(line.phone()).isEqualTo("01632 960 077");
        assertThat(line.step()).isEqualTo(StepKind.CLINIC);
        assertThat(line.canCome()).isEmpty();

        office(() -> {
            shortNotice.answer(id, line.reference(), true);
            return true;
        });
        assertThat(line(id)).flatMap(Line::canCome).contains(true);
        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 0, late, true)))
                .isInstanceOf(Done.class);
        assertThat(line(id)).as("a place sooner than the one it has").hasValueSatisfying(sooner -> {
            assertThat(sooner.has()).map(KeptSession::id).contains(late);
            assertThat(sooner.free().kept().id()).isEqualTo(soon);
        });
        assertThat(office(() -> appointments.place(id, StepKind.CLINIC, 1, soon, true)))
                .isInstanceOf(Done.class);
        assertThat(line(id)).as("it has the soonest").isEmpty();
    }

    @Test
    void whoCannotComeIsCountedAndNotOffered() {
        var id = approved("Sallow");
        done(id, StepKind.PRESSURES_AND_DUPLEX, "VASCULAR_LABORATORY");
        done(id, StepKind.CTA, "CT");
        session(SessionKind.CLINIC, 2);
        var line = line(id).orElseThrow();
        var before = office(shortNotice::list).cannot();
        office(() -> {
            shortNotice.answer(id, line.reference(), false);
            return true;
        });
        assertThat(line(id)).isEmpty();
        assertThat(office(shortNotice::list).cannot()).isEqualTo(before + 1);
        assertThatThrownBy(() -> staff.as("physician", () -> {
                    shortNotice.answer(id, line.reference(), true);
                    return true;
                }))
                .isInstanceOf(AccessDeniedException.class);
        assertThat(staff.as("physician", shortNotice::list).notice()).contains("A licensed clinician decides");
    }

    @Test
    void aProcedureIsOfferedOnceItsWorkUpIsReady() {
        var id = approved("Lorne");
        done(id, StepKind.PRESSURES_AND_DUPLEX, "VASCULAR_LABORATORY");
        done(id, StepKind.CTA, "CT");
        done(id, StepKind.CLINIC, "CLINIC");
        session(SessionKind.PROCEDURE_ROOM, 5);
        assertThat(line(id)).isEmpty();
        assertThat(office(shortNotice::list).notReady()).isPositive();

        for (var item : office(() -> preparation.get(id)).red()) {
            office(() ->
                    preparation.track(id, item.code(), item.version(), new Standing.NotNeeded("Known elsewhere.")));
        }
        assertThat(line(id)).hasValueSatisfying(line -> assertThat(line.step()).isEqualTo(StepKind.PROCEDURE));
    }

    private Optional<Line> line(long id) {
        return office(shortNotice::list).lines().stream()
                .filter(line -> line.referralId() == id)
                .findFirst();
    }

    /** A step that was taken yesterday; a session of yesterday cannot be entered. */
    private void done(long id, StepKind step, String kind) {
        var yesterday = today.minusDays(1).atTime(8 + 2 * step.ordinal(), 0);
        var place = "Room " + NUMBER.incrementAndGet();
        var session = jdbc.sql("""
                        insert into practice_session (kind, starts, ends, minutes, place, operator, capabilities, account,
                                                      author, at)
                        values (:kind, :starts, :ends, 60, :place, :place, '{}', (select min(id) from account), 'Wren', now())
                        returning id
                        """)
                .param("kind", kind)
                .param("starts", yesterday)
                .param("ends", yesterday.plusHours(1))
                .param("place", place)
                .query(Long.class)
                .single();
        jdbc.sql("""
                insert into appointment (referral, step, session, position, median, ninety, told, placed, account, author,
                                         at)
                values (:referral, :step, :session, 1, 30, 30, false, 'BY_HAND', (select min(id) from account), 'Wren',
                        now())
                """)
                .param("referral", id)
                .param("step", step.name())
                .param("session", session)
                .update();
    }

    private long session(SessionKind kind, int inDays) {
        var day = today.plusDays(inDays);
        var room = "Room " + NUMBER.incrementAndGet();
        assertThat(office(() -> sessions.enter(
                        new EnteredSession(
                                kind,
                                day,
                                LocalTime.of(8, 0),
                                LocalTime.of(16, 0),
                                room,
                                room,
                                Set.of(Capability.ARM_ACCESS, Capability.COVERED_STENT_STOCK)),
                        Optional.empty())))
                .isInstanceOf(Done.class);
        return office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals(room))
                .findFirst()
                .orElseThrow()
                .id();
    }

    private long approved(String family) {
        var draft = Draft.of(Arriving.REST_PAIN.replace("2026-01-12", today.toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        draft.set("patient.phone", "01632 960 077");
        draft.set("patient.born", "1950-01-%02d".formatted(NUMBER.incrementAndGet() % 28 + 1));
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
