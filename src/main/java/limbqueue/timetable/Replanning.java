package limbqueue.timetable;

import static limbqueue.access.Role.IS_COORDINATOR;

import jakarta.annotation.security.RolesAllowed;
import java.time.Clock;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Function;
import limbqueue.booking.Disruption;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.shell.CountedWords;
import limbqueue.timetable.Replanned.Line;
import limbqueue.timetable.jdbc.AppointmentStore;
import limbqueue.timetable.jdbc.SessionStore;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;

/** What becomes of the booked plan when something happens to it. Nothing changes until a person accepts it. */
@Service
public class Replanning {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM yyyy", Locale.ENGLISH);
    private static final int LONGEST_REASON = 200;
    private static final int LONGEST_DAY = 1440;

    private final ReplanOfWhatIsKept replan;
    private final Accepting accepting;
    private final AppointmentStore store;
    private final SessionStore sessions;
    private final TransactionTemplate transaction;
    private final Clock clock;

    Replanning(
            ReplanOfWhatIsKept replan,
            Accepting accepting,
            AppointmentStore store,
            SessionStore sessions,
            TransactionTemplate transaction,
            Clock clock) {
        this.replan = replan;
        this.accepting = accepting;
        this.store = store;
        this.sessions = sessions;
        this.transaction = transaction;
        this.clock = clock;
    }

    /** A patient with a place in an open session that is still to come. */
    public record Expected(Placed placed, KeptSession session) {}

    /** Whoever could cancel, by time. */
    @RolesAllowed(IS_COORDINATOR)
    public List<Expected> expected() {
        return Optional.ofNullable(transaction.execute(_ -> {
                    var toCome = toCome();
                    return store.inSessions(toCome.stream().map(KeptSession::id).toList()).stream()
                            .flatMap(placed -> toCome.stream()
                                    .filter(session -> session.id() == placed.session())
                                    .map(session -> new Expected(placed, session)))
                            .sorted(Comparator.comparing((Expected one) ->
                                            one.session().session().start())
                                    .thenComparing(one -> one.placed().position()))
                            .toList();
                }))
                .orElseThrow();
    }

    /** Whoever leads an open session that is still to come. */
    @RolesAllowed(IS_COORDINATOR)
    public List<String> operators() {
        return names(session -> session.session().operator());
    }

    /** Wherever an open session is still to come. */
    @RolesAllowed(IS_COORDINATOR)
    public List<String> places() {
        return names(session -> session.session().place());
    }

    private List<String> names(Function<KeptSession, String> of) {
        var names = new TreeSet<>(String.CASE_INSENSITIVE_ORDER);
        Optional.ofNullable(transaction.execute(_ -> toCome())).orElseThrow().stream()
                .map(of)
                .forEach(names::add);
        return List.copyOf(names);
    }

    private List<KeptSession> toCome() {
        var today = LocalDate.now(clock);
        var now = LocalDateTime.now(clock);
        return sessions.between(today, today.plusWeeks(PlanOfWhatIsKept.WEEKS)).stream()
                .filter(session -> session.closedBecause().isEmpty()
                        && session.session().end().isAfter(now))
                .toList();
    }

    /** Looks for the plan that moves the fewest who have been told; it takes some seconds and changes nothing. */
    @RolesAllowed(IS_COORDINATOR)
    public ReplanOutcome propose(Disruption disruption) {
        var wrong = wrong(disruption);
        if (wrong.isPresent()) {
            return new ReplanOutcome.Refused(wrong.get());
        }
        try {
            return new ReplanOutcome.Proposed(replan.of(
                    disruption,
                    words(disruption),
                    because(disruption),
                    clock.instant().truncatedTo(ChronoUnit.MICROS)));
        } catch (IllegalArgumentException noSuchCase) {
            return new ReplanOutcome.Refused(
                    "The patient is not waiting any more, or has been called in. Look at the sessions again.");
        }
    }

    /**
     * Accepts what was proposed: sessions are closed and minutes taken for an emergency, and of the lines those that were chosen. All of it is done,
     * or nothing.
     *
     * @param chosen lines of {@code replanned}
     * @param saidYes those of them that move a patient who has been told, to whose move a person has said yes
     * @param othersToo whether a person has said yes to what it does to those who have been told and are in no line: they stay
     *     in their session and are expected earlier, because somebody before them leaves it
     */
    @RolesAllowed(IS_COORDINATOR)
    public TimetableOutcome accept(
            Replanned replanned, Collection<Line> chosen, Collection<Line> saidYes, boolean othersToo) {
        return Optional.ofNullable(transaction.execute(status -> {
                    var outcome = accepting.accept(replanned, List.copyOf(chosen), List.copyOf(saidYes), othersToo);
                    if (!(outcome instanceof TimetableOutcome.Done)) {
                        status.setRollbackOnly();
                    }
                    return outcome;
                }))
                .orElseThrow();
    }

    private Optional<String> wrong(Disruption disruption) {
        return switch (disruption) {
            case Emergency(var _, var minutes, var _) ->
                minutes > LONGEST_DAY
                        ? Optional.of("An emergency needs at most %d minutes.".formatted(LONGEST_DAY))
                        : Optional.empty();
            case OperatorAway(var operator, var _, var until, var why) ->
                wrongReason(why).or(() -> over(until)).or(() -> closesNothing(disruption, "led by " + operator));
            case PlaceDown(var place, var _, var until, var why) ->
                wrongReason(why).or(() -> over(until)).or(() -> closesNothing(disruption, "in " + place));
            case PatientCancels(var _, var _, var until) -> over(until);
        };
    }

    private static Optional<String> wrongReason(String why) {
        if (why.isBlank()) {
            return Optional.of("Say why; it stands on the closed sessions.");
        }
        return why.length() > LONGEST_REASON
                ? Optional.of("Say why in at most %d characters.".formatted(LONGEST_REASON))
                : Optional.empty();
    }

    private Optional<String> over(LocalDateTime until) {
        return until.isAfter(LocalDateTime.now(clock))
                ? Optional.empty()
                : Optional.of("That time is over. The last day is today or later.");
    }

    private Optional<String> closesNothing(Disruption disruption, String whose) {
        var open = Optional.ofNullable(transaction.execute(_ -> toCome())).orElseThrow().stream()
                .map(KeptSession::session)
                .toList();
        return disruption.closes(open).isEmpty()
                ? Optional.of("No open session of that time is %s. Nothing changes.".formatted(whose))
                : Optional.empty();
    }

    private String words(Disruption disruption) {
        return switch (disruption) {
            case Emergency(var _, var minutes, var _) ->
                "An emergency needs %s of a procedure room today.".formatted(CountedWords.of(minutes, "minute"));
            case OperatorAway away ->
                "%s cannot work %s: %s.".formatted(away.operator(), time(away.from(), away.until()), end(away.why()));
            case PlaceDown down ->
                "%s cannot be used %s: %s.".formatted(down.place(), time(down.from(), down.until()), end(down.why()));
            case PatientCancels cancels ->
                "The patient of %s cannot come %s."
                        .formatted(cancels.reference(), time(cancels.from(), cancels.until()));
        };
    }

    private static String because(Disruption disruption) {
        return switch (disruption) {
            case Emergency _, PatientCancels _ -> "";
            case OperatorAway away -> away.why().strip();
            case PlaceDown down -> down.why().strip();
        };
    }

    private static String end(String why) {
        var stripped = why.strip();
        return stripped.endsWith(".") ? stripped.substring(0, stripped.length() - 1) : stripped;
    }

    private static String time(LocalDateTime from, LocalDateTime until) {
        var last = until.minusNanos(1).toLocalDate();
        return from.toLocalDate().equals(last)
                ? "on " + DAY.format(last)
                : "from %s to %s".formatted(DAY.format(from), DAY.format(last));
    }
}
