package limbqueue.letter;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import limbqueue.booking.Capability;
import limbqueue.booking.SessionKind;
import limbqueue.booking.StepKind;
import limbqueue.document.Draft;
import limbqueue.referral.Arriving;
import limbqueue.referral.DecideOutcome;
import limbqueue.referral.Decision;
import limbqueue.referral.Referral;
import limbqueue.referral.Referrals;
import limbqueue.referral.SubmitOutcome;
import limbqueue.testbed.Staff;
import limbqueue.timetable.Appointments;
import limbqueue.timetable.EnteredSession;
import limbqueue.timetable.FilledSession;
import limbqueue.timetable.Placed;
import limbqueue.timetable.Sessions;
import limbqueue.timetable.TimetableOutcome;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Takes invented referrals to a decision and into sessions, for tests. */
public record PatientCourse(
        Staff staff,
        Referrals referrals,
        Sessions sessions,
        Appointments appointments,
        JdbcClient jdbc,
        String operator) {

    public Referral queued(String family, String referrer) {
        var draft = Draft.of(Arriving.REST_PAIN.replace("2026-01-12", today().toString()));
        draft.set("patient.given", "Enid");
        draft.set("patient.family", family);
        draft.set("patient.address", "3 Fuller Row, Millbeck");
        draft.set("referrer.name", referrer);
        return office(() -> {
            var entered = referrals.enter(draft.toJson());
            return ((SubmitOutcome.Submitted) referrals.submit(entered.id(), entered.version())).referral();
        });
    }

    public Referral decided(Referral queued, Decision decision) {
        return staff.as(
                "physician",
                () -> ((DecideOutcome.Decided) referrals.decide(queued.id(), queued.version(), decision)).referral());
    }

    public long session(SessionKind kind, int inDays, String room) {
        var day = today().plusDays(inDays);
        done(office(() -> sessions.enter(
                new EnteredSession(
                        kind,
                        day,
                        LocalTime.of(8, 0),
                        LocalTime.of(16, 0),
                        room,
                        operator,
                        Set.of(Capability.ARM_ACCESS)),
                Optional.empty())));
        return office(() -> sessions.week(day)).on(day).stream()
                .map(FilledSession::kept)
                .filter(one -> one.session().place().equals(room))
                .findFirst()
                .orElseThrow()
                .id();
    }

    public void place(long id, StepKind step, long session) {
        var version = jdbc.sql(
                        "select coalesce(max(version), 0) from appointment where referral = :id and step = :step")
                .param("id", id)
                .param("step", step.name())
                .query(Integer.class)
                .single();
        done(office(() -> appointments.place(id, step, version, session, true)));
    }

    public void told(long session, int inDays) {
        told(placed(session, inDays));
    }

    public void told(Placed placed) {
        done(office(() -> appointments.told(placed.id(), placed.version())));
    }

    public Placed placed(long session, int inDays) {
        return filled(session, inDays).patients().getFirst();
    }

    public FilledSession filled(long session, int inDays) {
        return office(() -> sessions.week(today().plusDays(inDays))).sessions().stream()
                .filter(one -> one.kept().id() == session)
                .findFirst()
                .orElseThrow();
    }

    public LocalDate today() {
        return office(referrals::today);
    }

    public <T> T office(Callable<T> work) {
        return staff.as("coordinator", work);
    }

    private static void done(TimetableOutcome outcome) {
        assertThat(outcome).isInstanceOf(TimetableOutcome.Done.class);
    }
}
