package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;
import static limbqueue.access.Role.IS_PHYSICIAN;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.atomic.AtomicReference;
import java.util.stream.Collectors;
import limbqueue.access.CurrentPerson;
import limbqueue.booking.Search;
import limbqueue.timetable.Placing.Wanted;
import limbqueue.timetable.PlanningState.Failed;
import limbqueue.timetable.PlanningState.NotAsked;
import limbqueue.timetable.PlanningState.Proposed;
import limbqueue.timetable.PlanningState.Running;
import limbqueue.timetable.Proposal.Move;
import limbqueue.timetable.TimetableOutcome.Done;
import limbqueue.timetable.TimetableOutcome.Overtaken;
import limbqueue.timetable.TimetableOutcome.Refused;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * The plan that is proposed for whoever waits. It is looked for beside everything else, one at a time, and held by this
 * server until the next one; what was accepted of it is stored like every other appointment.
 */
@Service
public class Planning {

    private static final Logger LOG = LoggerFactory.getLogger(Planning.class);

    private static final int SECONDS = 5;
    private static final Search SEARCH = new Search(1, 200_000, Optional.of(Duration.ofSeconds(SECONDS)));

    private final PlanOfWhatIsKept plan;
    private final Placing placing;
    private final AppointmentStore store;
    private final SessionStore sessions;
    private final CurrentPerson currentPerson;
    private final TransactionTemplate transaction;
    private final Clock clock;

    private final AtomicReference<Held> held = new AtomicReference<>(new Held(new NotAsked(), ""));

    Planning(
            PlanOfWhatIsKept plan,
            Placing placing,
            AppointmentStore store,
            SessionStore sessions,
            CurrentPerson currentPerson,
            TransactionTemplate transaction,
            Clock clock) {
        this.plan = plan;
        this.placing = placing;
        this.store = store;
        this.sessions = sessions;
        this.currentPerson = currentPerson;
        this.transaction = transaction;
        this.clock = clock;
    }

    /** @param ground the database of which it was planned */
    private record Held(PlanningState state, String ground) {}

    private PlanningState current() {
        var now = held.get();
        return now.ground().equals(store.ground()) ? now.state() : new NotAsked();
    }

    /** How far the plan has come; of a proposal what has not been accepted yet. */
    @RolesAllowed({IS_COORDINATOR, IS_PHYSICIAN})
    @Transactional(readOnly = true)
    public PlanningState state() {
        var now = current();
        return now instanceof Proposed(var proposal) ? new Proposed(withoutWhatIsDone(proposal)) : now;
    }

    private Proposal withoutWhatIsDone(Proposal proposal) {
        var there = store
                .of(proposal.moves().stream().map(Move::referralId).distinct().toList())
                .stream()
                .collect(Collectors.toMap(one -> one.referralId() + " " + one.step(), one -> one.session()));
        return new Proposal(
                proposal.notice(),
                proposal.at(),
                proposal.by(),
                proposal.asOf(),
                proposal.lastDay(),
                proposal.levels(),
                proposal.moves().stream()
                        .filter(move ->
                                !Long.valueOf(move.to().id()).equals(there.get(move.referralId() + " " + move.step())))
                        .toList(),
                proposal.unplaced(),
                proposal.notQueued());
    }

    /**
     * Begins to look for a plan and comes back at once; open pages are told when it is there.
     *
     * @return false if one is being looked for already
     */
    @RolesAllowed(IS_COORDINATOR)
    public boolean start() {
        var by = currentPerson.get().displayName();
        var before = held.get();
        var running = new Held(new Running(now(), by, SECONDS), store.ground());
        if (before.state() instanceof Running && before.ground().equals(running.ground())
                || !held.compareAndSet(before, running)) {
            return false;
        }
        Thread.ofPlatform().name("planning").daemon().start(() -> run(running, by));
        transaction.executeWithoutResult(_ -> sessions.tell());
        return true;
    }

    private void run(Held running, String by) {
        PlanningState outcome;
        try {
            outcome = new Proposed(plan.proposal(SEARCH, by, now()));
        } catch (RuntimeException failed) {
            LOG.atWarn().setCause(failed).log("no plan could be made");
            outcome = new Failed("No plan could be made of what is stored. Try again; else the log says why.");
        }
        held.compareAndSet(running, new Held(outcome, running.ground()));
        try {
            transaction.executeWithoutResult(_ -> sessions.tell());
        } catch (RuntimeException untold) {
            LOG.atWarn().setCause(untold).log("open pages were not told of the plan");
        }
    }

    /**
     * Accepts one line of the proposal.
     *
     * @param agreed whether a person has said yes to what was asked first
     */
    @RolesAllowed(IS_COORDINATOR)
    @Transactional
    public TimetableOutcome accept(Move move, boolean agreed) {
        if (!(current() instanceof Proposed(var proposal)) || !proposal.moves().contains(move)) {
            return new Overtaken();
        }
        return place(move, agreed ? EnumSet.allOf(Concern.Kind.class) : EnumSet.noneOf(Concern.Kind.class));
    }

    /** Accepts every line that moves nobody who has been told of a place. Each is accepted or left by itself. */
    @RolesAllowed(IS_COORDINATOR)
    public TimetableOutcome acceptAll() {
        if (!(current() instanceof Proposed(var whole))) {
            return new Overtaken();
        }
        var proposal = Optional.ofNullable(transaction.execute(_ -> withoutWhatIsDone(whole)))
                .orElseThrow();
        var accepted = 0;
        for (var move : proposal.moves()) {
            if (!move.told()
                    && transaction.execute(_ -> place(move, EnumSet.of(Concern.Kind.UNFIT, Concern.Kind.ORDER)))
                            instanceof Done) {
                accepted++;
            }
        }
        var left = proposal.moves().size() - accepted;
        return accepted == 0 && left > 0
                ? new Refused("Nothing was accepted: each line needs a yes of its own, or has changed since.")
                : new Done(
                        left == 0
                                ? List.of("Accepted: " + accepted + ".")
                                : List.of("Accepted: %d. Left: %d, each with a question of its own, or changed since."
                                        .formatted(accepted, left)));
    }

    private TimetableOutcome place(Move move, Set<Concern.Kind> agreed) {
        return placing.place(
                new Wanted(
                        move.referralId(),
                        move.step(),
                        move.version(),
                        move.to().id(),
                        true),
                agreed);
    }

    private Instant now() {
        return clock.instant().truncatedTo(ChronoUnit.MICROS);
    }
}
