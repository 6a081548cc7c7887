package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import limbqueue.access.AuditTrail;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.WaitingCase;
import limbqueue.preparation.PreparationCase;
import limbqueue.preparation.PreparationCases;
import limbqueue.preparation.Readiness;
import limbqueue.timetable.Paths.QueuedCase;
import limbqueue.timetable.ShortNoticeList.Line;
import limbqueue.timetable.jdbc.ShortNoticeStore;
import limbqueue.triage.TriageResult;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** Who could take a place that somebody has given up. */
@Service
public class ShortNotice {

    /** Where to look for whoever could take a place that has become free. */
    public static final String FREED = "Short notice says who could take the place.";

    /** Places that are further away are found by the plan (common practice, no source). */
    static final int DAYS = 7;

    private final PlanOfWhatIsKept plan;
    private final PreparationCases cases;
    private final ShortNoticeStore store;
    private final CurrentPerson currentPerson;
    private final AuditTrail auditTrail;
    private final Clock clock;

    ShortNotice(
            PlanOfWhatIsKept plan,
            PreparationCases cases,
            ShortNoticeStore store,
            CurrentPerson currentPerson,
            AuditTrail auditTrail,
            Clock clock) {
        this.plan = plan;
        this.cases = cases;
        this.store = store;
        this.currentPerson = currentPerson;
        this.auditTrail = auditTrail;
        this.clock = clock;
    }

    /** Whether a place that becomes free in this session is one that the list offers. */
    static boolean offers(KeptSession session, LocalDate today) {
        return session.closedBecause().isEmpty()
                && !session.date().isBefore(today)
                && !session.date().isAfter(today.plusDays(DAYS));
    }

    private record Candidate(QueuedCase queued, WaitingCase waiting, Step step, FilledSession free) {}

    /** The list as it is now. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public ShortNoticeList list() {
        var stored = plan.read();
        var until = stored.today().plusDays(DAYS);
        var free = free(stored);
        var candidates = stored.queue().stream()
                .flatMap(queued ->
                        queued.waiting().stream().flatMap(waiting -> candidate(stored, free, queued, waiting).stream()))
                .sorted(Comparator.comparing((Candidate one) -> one.waiting().tier())
                        .thenComparing(one -> one.waiting().target())
                        .thenComparing(one -> one.waiting().reference()))
                .toList();
        var ids = candidates.stream().map(one -> one.queued().referralId()).toList();
        var prepared = cases.of(ids).stream().collect(Collectors.toMap(PreparationCase::id, Function.identity()));
        var answers = store.answers(ids);
        var lines = new ArrayList<Line>();
        var notReady = 0;
        var cannot = 0;
        for (var one : candidates) {
            var id = one.queued().referralId();
            var of = Optional.ofNullable(prepared.get(id)).orElseThrow();
            var canCome = Optional.ofNullable(answers.get(id));
            if (canCome.equals(Optional.of(false))) {
                cannot++;
            } else if (!ready(one.step(), of)) {
                notReady++;
            } else {
                lines.add(line(stored, one, of, canCome));
            }
        }
        return new ShortNoticeList(TriageResult.NOTICE, until, List.copyOf(lines), notReady, cannot);
    }

    /** Open sessions of the next days that have not begun, with whoever is in them, by time. */
    private static List<FilledSession> free(WhatIsKept stored) {
        var bySession = stored.inSessions().stream().collect(Collectors.groupingBy(Placed::session));
        return stored.sessions().values().stream()
                .filter(kept ->
                        offers(kept, stored.today()) && kept.session().start().isAfter(stored.now()))
                .sorted(Comparator.comparing(
                                (KeptSession kept) -> kept.session().start())
                        .thenComparing(KeptSession::id))
                .map(kept -> new FilledSession(kept, bySession.getOrDefault(kept.id(), List.of()), stored.zone()))
                .toList();
    }

    /** The first place that is free for the first step that is still to be done. */
    private static Optional<Candidate> candidate(
            WhatIsKept stored, List<FilledSession> free, QueuedCase queued, WaitingCase waiting) {
        var step = waiting.steps().getFirst();
        return free.stream()
                .filter(session -> takes(stored, queued.referralId(), step, session))
                .findFirst()
                .map(session -> new Candidate(queued, waiting, step, session));
    }

    private static boolean takes(WhatIsKept stored, long referralId, Step step, FilledSession free) {
        var session = free.kept().session();
        return session.kind() == step.kind().session()
                && session.capabilities().containsAll(step.needs())
                && free.expected() + step.minutes().expected() <= session.minutes()
                && step.barred().stream().noneMatch(barred -> !barred.untilTold() && barred.bars(session))
                && stored.places().getOrDefault(referralId, List.of()).stream()
                        .flatMap(place -> Optional.ofNullable(stored.sessions().get(place.session())).stream())
                        .allMatch(kept -> kept.closedBecause().isPresent()
                                || kept.date().isBefore(stored.today())
                                || !kept.session().start().isBefore(session.end()));
    }

    /** A procedure has its work-up ready when nothing but its date keeps it from the room; what comes before has nothing to wait for. */
    private static boolean ready(Step step, PreparationCase of) {
        return step.kind() != StepKind.PROCEDURE
                || of.readiness().obstacles().stream().allMatch(obstacle -> obstacle.kind() == Readiness.Kind.NO_DATE);
    }

    private static Line line(WhatIsKept stored, Candidate one, PreparationCase of, Optional<Boolean> canCome) {
        var id = one.queued().referralId();
        var place = stored.place(id, one.step().kind());
        return new Line(
                id,
                one.queued().reference(),
                one.queued().patient(),
                of.proposed().document().patient().phone().orElse(""),
                one.waiting().tier(),
                one.waiting().target(),
                one.step().kind(),
                stored.version(id, one.step().kind()),
                one.step().minutes().expected(),
                place.flatMap(at -> Optional.ofNullable(stored.sessions().get(at.session()))),
                place.map(Placed::told).orElse(false),
                one.free(),
                canCome);
    }

    /** Notes what a patient has said. */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public void answer(long referralId, String reference, boolean canCome) {
        store.answer(referralId, canCome, currentPerson.get(), clock.instant().truncatedTo(ChronoUnit.MICROS));
        auditTrail.record(
                canCome
                        ? "noted that the patient can come at short notice"
                        : "noted that the patient cannot come at short notice",
                reference);
    }
}
