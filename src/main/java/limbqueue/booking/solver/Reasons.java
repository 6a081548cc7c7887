package limbqueue.booking.solver;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.Lateness;
import limbqueue.booking.Obstacle;
import limbqueue.booking.Plan;
import limbqueue.booking.Plan.CasePlan;
import limbqueue.booking.Plan.LevelScore;
import limbqueue.booking.Plan.MovedAppointment;
import limbqueue.booking.Plan.SessionLoad;
import limbqueue.booking.Plan.StepPlan;
import limbqueue.booking.PlanRule;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.Search;
import limbqueue.booking.StepMinutes;
import limbqueue.booking.Waiting;
import limbqueue.triage.TriageResult;

/** Says of a timetable why each case is where it is, and what would have to give for an earlier place. */
final class Reasons {

    /** Earlier sessions of which each is told what is in the way. */
    private static final int EARLIER = 3;
    /** Cases of a full session that are named. */
    private static final int NAMED = 3;

    private final Waiting waiting;
    private final Timetable timetable;
    private final Map<Slot, List<Appointment>> held = new LinkedHashMap<>();

    Reasons(Waiting waiting, Timetable timetable) {
        this.waiting = waiting;
        this.timetable = timetable;
        for (var appointment : timetable.getAppointments()) {
            appointment
                    .placed()
                    .ifPresent(slot ->
                            held.computeIfAbsent(slot, _ -> new ArrayList<>()).add(appointment));
        }
    }

    Plan plan(Search search) {
        var cases = new ArrayList<CasePlan>();
        var told = new ArrayList<MovedAppointment>();
        var appointments = timetable.getAppointments();
        for (var first = 0; first < appointments.size(); ) {
            var size = appointments.get(first).waiting().steps().size();
            var path = appointments.subList(first, first + size);
            cases.add(casePlan(path));
            path.stream().filter(Appointment::movesTold).map(this::moved).forEach(told::add);
            first += size;
        }
        return new Plan(
                TriageResult.NOTICE,
                waiting.asOf(),
                search.seed(),
                search.steps(),
                levels(),
                timetable.slots().stream()
                        .filter(held::containsKey)
                        .map(this::load)
                        .toList(),
                told,
                cases);
    }

    private List<LevelScore> levels() {
        return Arrays.stream(Level.values())
                .map(level -> {
                    var points = points(level);
                    return new LevelScore(level, points, words(level, points), sentences(level));
                })
                .toList();
    }

    private long points(Level level) {
        var score = timetable.getScore();
        return score == null ? 0 : -score.hardOrSoftScore(level.ordinal());
    }

    private static List<String> sentences(Level level) {
        return Arrays.stream(PlanRule.values())
                .filter(rule -> rule.level() == level)
                .map(PlanRule::sentence)
                .toList();
    }

    private String words(Level level, long points) {
        return switch (level) {
            case HARD -> points == 0 ? "Nothing is planned that cannot be." : "Something is planned that cannot be.";
            case PROMISES_OF_5_DAYS, PROMISES_OF_14_DAYS ->
                "%d of %d promises broken, %d days late together"
                        .formatted(
                                points / Lateness.BROKEN_PROMISE,
                                waiting.cases().stream()
                                        .filter(of -> Lateness.levelOf(of.tier()) == level)
                                        .count(),
                                points % Lateness.BROKEN_PROMISE);
            case OVERRUN -> "%d minutes short of ending in time in nine of ten sessions".formatted(points);
            case LATENESS -> "%d weighted days after the target dates".formatted(points);
            case TOLD_APPOINTMENTS -> "%d told appointments moved".formatted(points);
            case IDLE_MINUTES -> "%d expected minutes times days ahead".formatted(points);
        };
    }

    private SessionLoad load(Slot slot) {
        var session = slot.session();
        return new SessionLoad(
                session.id(),
                session.kind(),
                session.start(),
                session.end(),
                session.place(),
                session.operator(),
                session.minutes(),
                expected(slot),
                Math.round(StepMinutes.ninetyOfSum(expected(slot), variance(slot))),
                session.minutes() - expected(slot),
                held(slot).stream()
                        .map(appointment -> appointment.waiting().reference())
                        .toList());
    }

    private List<Appointment> held(Slot slot) {
        return held.getOrDefault(slot, List.of());
    }

    private long expected(Slot slot) {
        return held(slot).stream().mapToLong(Appointment::expected).sum();
    }

    private long variance(Slot slot) {
        return held(slot).stream().mapToLong(Appointment::variance).sum();
    }

    private MovedAppointment moved(Appointment appointment) {
        var from = appointment.step().told().orElseThrow();
        return new MovedAppointment(
                appointment.waiting().reference(),
                appointment.step().kind(),
                from,
                appointment.placed().map(slot -> slot.session().id()),
                timetable.slots().stream()
                        .filter(slot -> slot.session().id().equals(from))
                        .findFirst()
                        .map(slot -> obstacle(appointment, slot)
                                .map(Obstacle::text)
                                .orElse("another case or an earlier level gains by it"))
                        .orElse("there is no such session any more"));
    }

    private CasePlan casePlan(List<Appointment> path) {
        var of = path.getFirst().waiting();
        var steps = path.stream().map(this::stepPlan).toList();
        var last = path.getLast().placed().map(slot -> slot.session().date());
        // A step that no session can ever take is what keeps the whole case from its places.
        var lacking = path.stream()
                .filter(appointment -> appointment.getRange().isEmpty())
                .map(appointment -> steps.get(appointment.index()))
                .findFirst()
                .or(() ->
                        steps.stream().filter(step -> step.session().isEmpty()).findFirst());
        return new CasePlan(
                of.reference(),
                of.tier(),
                of.target(),
                lacking.isEmpty(),
                last,
                last.map(day -> Lateness.daysLate(of.target(), day)),
                lacking.map(step -> "Not placed: %s. %s".formatted(step.step().words(), step.why()))
                        .orElseGet(() -> inTime(of.target(), last.orElseThrow())
                                + steps.getLast().why()),
                lacking.isEmpty() ? steps.getLast().forEarlier() : List.of(),
                steps);
    }

    private static String inTime(LocalDate target, LocalDate on) {
        var late = Lateness.daysLate(target, on);
        return late == 0
                ? "In time, by %s. ".formatted(target)
                : "%d %s after the target date %s. ".formatted(late, late == 1 ? "day" : "days", target);
    }

    private StepPlan stepPlan(Appointment appointment) {
        var slot = appointment.placed();
        var earlier = ofItsKind(appointment).stream()
                .filter(other -> slot.map(at -> other.number() < at.number()).orElse(true))
                .toList();
        return new StepPlan(
                appointment.step().kind(),
                slot.map(at -> at.session().id()),
                slot.map(at -> time(appointment, at)),
                appointment.expected(),
                slot.isPresent() ? whyThere(appointment, earlier) : whyNot(appointment, earlier),
                slot.isPresent() ? forEarlier(appointment, earlier) : List.of());
    }

    /** Sessions of the step's kind that are still to come. */
    private List<Slot> ofItsKind(Appointment appointment) {
        var kind = appointment.step().kind().session();
        return timetable.slots().stream()
                .filter(slot -> slot.session().kind() == kind && slot.daysAhead() >= 0)
                .toList();
    }

    /** Those who are more urgent come first. */
    private LocalDateTime time(Appointment appointment, Slot slot) {
        return slot.session()
                .start()
                .plusMinutes(held(slot).stream()
                        .takeWhile(other -> other != appointment)
                        .mapToLong(Appointment::expected)
                        .sum());
    }

    private String whyThere(Appointment appointment, List<Slot> earlier) {
        var kind = appointment.step().kind().session().words();
        if (earlier.isEmpty()) {
            return "The first session of the %s that there is.".formatted(kind);
        }
        var obstacles = obstacles(appointment, earlier);
        var fixed = obstacles.stream().allMatch(obstacle -> alone(obstacle.rule()));
        return (fixed
                        ? "The first session of the %s that can take it. Earlier ones: %s."
                        : "Earlier sessions of the %s: %s.")
                .formatted(kind, summary(obstacles));
    }

    private static boolean alone(PlanRule rule) {
        return rule == PlanRule.SUITABLE_SESSION || rule == PlanRule.OPEN_GATE;
    }

    private List<String> forEarlier(Appointment appointment, List<Slot> earlier) {
        var given = new ArrayList<String>();
        for (var slot : earlier) {
            var obstacle = obstacle(appointment, slot).orElseGet(Reasons::nothing);
            if (!alone(obstacle.rule()) && given.size() < EARLIER) {
                given.add("%s on %s: %s"
                        .formatted(slot.session().id(), slot.session().date(), obstacle.text()));
            }
        }
        return given;
    }

    private String whyNot(Appointment appointment, List<Slot> all) {
        var kind = appointment.step().kind().session().words();
        if (all.isEmpty()) {
            return "%s: there is no session of the %s from %s on. Add one."
                    .formatted(PlanRule.SUITABLE_SESSION.sentence(), kind, waiting.asOf());
        }
        var obstacles = obstacles(appointment, all);
        // The rule that binds is the one that the session which comes closest would break.
        var binding = obstacles.stream()
                .map(Obstacle::rule)
                .max(Comparator.naturalOrder())
                .orElseThrow();
        var never = appointment.getRange().isEmpty()
                ? "No session can ever take it, whatever else is planned: "
                : "Sessions of the %s: ".formatted(kind);
        return "%s %s%s.".formatted(binding.sentence(), never, summary(obstacles));
    }

    private List<Obstacle> obstacles(Appointment appointment, List<Slot> slots) {
        return slots.stream()
                .map(slot -> obstacle(appointment, slot).orElseGet(Reasons::nothing))
                .toList();
    }

    private static Obstacle nothing() {
        return new Obstacle(PlanRule.NO_IDLE_MINUTES, "nothing is in the way, but the search did not come to it");
    }

    /** Each text once, with how many sessions it is told of. */
    private static String summary(List<Obstacle> obstacles) {
        return obstacles.stream()
                .collect(Collectors.groupingBy(
                        obstacle -> obstacle.rule() == PlanRule.ROOM_IN_THE_SESSION
                                        && obstacle.text().startsWith("full")
                                ? "full"
                                : obstacle.text(),
                        LinkedHashMap::new,
                        Collectors.counting()))
                .entrySet()
                .stream()
                .map(entry -> "%d %s: %s"
                        .formatted(entry.getValue(), entry.getValue() == 1 ? "session" : "sessions", entry.getKey()))
                .collect(Collectors.joining("; "));
    }

    /** What is in the way of {@code appointment} in {@code slot}, with everything else as planned. */
    Optional<Obstacle> obstacle(Appointment appointment, Slot slot) {
        return Fit.alone(appointment.step(), slot)
                .or(() -> order(appointment, slot))
                .or(() -> otherPlaces(appointment, slot))
                .or(() -> room(appointment, slot))
                .or(() -> overrun(appointment, slot))
                .or(() -> told(appointment, slot));
    }

    private Optional<Obstacle> order(Appointment appointment, Slot slot) {
        var step = appointment.step();
        if (appointment.index() > 0) {
            var before = timetable.getAppointments().get(appointment.getNumber() - 1);
            var words = before.step().kind().words();
            if (before.placed().isEmpty()) {
                return Optional.of(
                        new Obstacle(PlanRule.IN_ORDER, "the step before it, %s, has no place".formatted(words)));
            }
            if (!Fit.inOrder(step, slot, before.at())) {
                return Optional.of(new Obstacle(
                        PlanRule.IN_ORDER,
                        "%s on %s would have to come earlier"
                                .formatted(words, before.at().session().date())));
            }
        }
        if (appointment.last()) {
            for (var earlier : path(appointment)) {
                if (earlier != appointment
                        && earlier.placed()
                                .map(at -> !Fit.stillCounts(earlier.step(), at, slot))
                                .orElse(false)) {
                    return Optional.of(new Obstacle(
                            PlanRule.RESULT_STILL_COUNTS,
                            "%s of %s would not count any more"
                                    .formatted(
                                            earlier.step().kind().words(),
                                            earlier.at().session().date())));
                }
            }
        }
        return Optional.empty();
    }

    private List<Appointment> path(Appointment appointment) {
        var first = appointment.getNumber() - appointment.index();
        return timetable
                .getAppointments()
                .subList(first, first + appointment.waiting().steps().size());
    }

    private Optional<Obstacle> otherPlaces(Appointment appointment, Slot slot) {
        return timetable.getAppointments().stream()
                .filter(other -> other.caseNumber() != appointment.caseNumber()
                        && other.patient().equals(appointment.patient())
                        && other.placed().map(at -> !Fit.apart(at, slot)).orElse(false))
                .findFirst()
                .map(other -> new Obstacle(
                        PlanRule.ONE_PLACE_AT_A_TIME,
                        "the patient is in session %s for %s"
                                .formatted(
                                        other.at().session().id(),
                                        other.waiting().reference())));
    }

    private Optional<Obstacle> room(Appointment appointment, Slot slot) {
        var used = expected(slot) - own(appointment, slot, appointment.expected());
        if (used + appointment.expected() <= slot.session().minutes()) {
            return Optional.empty();
        }
        var others = held(slot).stream().filter(other -> other != appointment).toList();
        var named = others.stream()
                .limit(NAMED)
                .map(other -> "%s (%s, by %s)"
                        .formatted(
                                other.waiting().reference(),
                                words(other),
                                other.waiting().target()))
                .collect(Collectors.joining(", "));
        return Optional.of(new Obstacle(
                PlanRule.ROOM_IN_THE_SESSION,
                "full: %d of %d minutes are held by %s%s; %d more would have to become free"
                        .formatted(
                                used,
                                slot.session().minutes(),
                                named,
                                others.size() > NAMED ? " and %d more".formatted(others.size() - NAMED) : "",
                                used + appointment.expected() - slot.session().minutes())));
    }

    private static String words(Appointment appointment) {
        return switch (appointment.waiting().tier()) {
            case SAME_DAY -> "same day";
            case WITHIN_5_DAYS -> "within 5 days";
            case WITHIN_14_DAYS -> "within 14 days";
            case WITHIN_6_WEEKS -> "within 6 weeks";
            case WITHIN_18_WEEKS -> "within 18 weeks";
            case ADVICE_ONLY -> "advice only";
        };
    }

    private Optional<Obstacle> overrun(Appointment appointment, Slot slot) {
        var expected = expected(slot) - own(appointment, slot, appointment.expected());
        var variance = variance(slot) - own(appointment, slot, appointment.variance());
        var minutes = slot.session().minutes();
        var more = StepMinutes.overrun(expected + appointment.expected(), variance + appointment.variance(), minutes)
                - StepMinutes.overrun(expected, variance, minutes);
        return more <= 0
                ? Optional.empty()
                : Optional.of(new Obstacle(
                        PlanRule.ENDS_IN_TIME,
                        "it would have to be %d minutes longer to end in time in nine of ten".formatted(more)));
    }

    private static long own(Appointment appointment, Slot slot, long value) {
        return appointment.getSlot() == slot ? value : 0;
    }

    private static Optional<Obstacle> told(Appointment appointment, Slot slot) {
        return appointment
                .step()
                .told()
                .filter(told -> !told.equals(slot.session().id()) && !appointment.movesTold())
                .map(told ->
                        new Obstacle(PlanRule.TOLD_APPOINTMENT_KEPT, "the patient has been told of session " + told));
    }
}
