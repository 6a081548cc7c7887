package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.StepKind;
import limbqueue.preparation.PlanLines;
import limbqueue.referral.PlanWords;
import limbqueue.referral.ProposedCase;
import limbqueue.referral.ProposedCases;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import limbqueue.triage.ProcedurePlan;
import limbqueue.triage.TriageResult;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Lists of a day for those who work in its sessions. */
@Service
public class DayLists {

    private final SessionStore sessions;
    private final AppointmentStore store;
    private final ProposedCases referrals;
    private final Clock clock;

    DayLists(SessionStore sessions, AppointmentStore store, ProposedCases referrals, Clock clock) {
        this.sessions = sessions;
        this.store = store;
        this.referrals = referrals;
        this.clock = clock;
    }

    /** The list of {@code date}, of proposals as they are now. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public DayList of(LocalDate date) {
        var kept = sessions.between(date, date);
        var placed = store.inSessions(kept.stream().map(KeptSession::id).toList());
        var cases = referrals
                .of(placed.stream().map(Placed::referralId).distinct().toList())
                .stream()
                .collect(Collectors.toMap(one -> one.referral().id(), one -> one));
        var bySession = placed.stream().collect(Collectors.groupingBy(Placed::session));
        return new DayList(
                TriageResult.NOTICE,
                date,
                kept.stream()
                        .map(session -> new FilledSession(
                                session, bySession.getOrDefault(session.id(), List.of()), clock.getZone()))
                        .map(filled -> new DayList.SessionList(
                                filled,
                                filled.patients().stream()
                                        .map(one -> line(
                                                filled,
                                                one,
                                                Optional.ofNullable(cases.get(one.referralId()))
                                                        .orElseThrow()))
                                        .toList()))
                        .toList());
    }

    private static DayList.Line line(FilledSession session, Placed placed, ProposedCase proposed) {
        var plan = proposed.proposal().procedurePlan();
        var procedure = plan.filter(_ -> placed.step() == StepKind.PROCEDURE);
        return new DayList.Line(
                session.startsFor(placed).toLocalTime(),
                placed,
                plan.map(ProcedurePlan::sides)
                        .filter(sides -> !sides.isEmpty())
                        .map(PlanWords::legs)
                        .orElse(""),
                procedure.map(PlanLines::access).orElse(List.of()),
                procedure
                        .map(one -> one.room().stream()
                                .map(ProcedurePlan.RoomItem::item)
                                .toList())
                        .orElse(List.of()),
                proposed.proposal().questions().stream()
                        .map(TriageResult.Question::ask)
                        .toList());
    }
}
