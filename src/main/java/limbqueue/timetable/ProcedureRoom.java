package limbqueue.timetable;

import static limbqueue.access.Role.IS_MANAGER;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.Comparator;
import java.util.stream.Stream;
import limbqueue.booking.Barred;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.WaitingCase;
import limbqueue.timetable.Paths.QueuedCase;
import limbqueue.timetable.RoomAhead.ForRoom;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The procedure room in the weeks to come: what whoever looks ahead begins with. */
@Service
public class ProcedureRoom {

    private final PlanOfWhatIsKept plan;

    ProcedureRoom(PlanOfWhatIsKept plan) {
        this.plan = plan;
    }

    /** As it is stored now, for as many weeks as are planned. */
    @RolesAllowed({IS_PHYSICIAN, IS_MANAGER})
    @Transactional(readOnly = true)
    public RoomAhead ahead() {
        var kept = plan.read();
        return new RoomAhead(
                kept.today(),
                kept.lastDay(),
                kept.queue().stream().flatMap(one -> forRoom(one, kept.today())).toList(),
                kept.openTo(kept.waiting()).stream()
                        .filter(session -> session.kind() == SessionKind.PROCEDURE_ROOM && !session.closed())
                        .sorted(Comparator.comparing(Session::start).thenComparing(Session::id))
                        .toList());
    }

    private static Stream<ForRoom> forRoom(QueuedCase queued, LocalDate today) {
        return queued.waiting().stream()
                .flatMap(waiting -> waiting.steps().stream()
                        .filter(step -> step.kind() == StepKind.PROCEDURE)
                        .map(step -> new ForRoom(
                                queued.referralId(),
                                waiting.tier(),
                                ready(waiting, today),
                                waiting.target(),
                                step.minutes())));
    }

    private static LocalDate ready(WaitingCase waiting, LocalDate today) {
        var day = today;
        for (var step : waiting.steps()) {
            var soonest = soonest(step, today);
            var after = day.plusDays(step.daysAfterPrevious());
            day = after.isAfter(soonest) ? after : soonest;
        }
        return day;
    }

    private static LocalDate soonest(Step step, LocalDate today) {
        return step.barred().stream()
                .filter(bar ->
                        bar.from().equals(LocalDateTime.MIN) && bar.until().isBefore(LocalDateTime.MAX))
                .map(Barred::until)
                .map(LocalDateTime::toLocalDate)
                .max(Comparator.naturalOrder())
                .orElse(today);
    }
}
