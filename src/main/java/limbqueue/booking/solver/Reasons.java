package limbqueue.booking.solver;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
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

    private final Waiting waiting;
    private final Timetable timetable;
    private final InTheWay inTheWay;

    Reasons(Waiting waiting, Timetable timetable) {
        this.waiting = waiting;
        this.timetable = timetable;
        this.inTheWay = new InTheWay(timetable);
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
                        .filter(slot -> !inTheWay.held(slot).isEmpty())
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
                inTheWay.expected(slot),
                Math.round(StepMinutes.ninetyOfSum(inTheWay.expected(slot), inTheWay.variance(slot))),
                session.minutes() - inTheWay.expected(slot),
                slot.held(),
                inTheWay.held(slot).stream()
                        .map(appointment -> appointment.waiting().reference())
                        .toList());
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
                        .map(slot -> inTheWay.of(appointment, slot)
                                .map(Obstacle::text)
                                .orElse("another case or an earlier level gains by it"))
                        .orElse("there is no such session any more"));
    }

    /** A case as it is planned, with what binds where it is not. */
    CasePlan casePlan(List<Appointment> path) {
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

    /** A step as it is planned: why there, or what binds. */
    StepPlan stepPlan(Appointment appointment) {
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
        var before = inTheWay.held(slot).stream()
                .takeWhile(other -> other != appointment)
                .mapToLong(Appointment::expected)
                .sum();
        // Minutes pass; what the clock shows after them is another thing in a night in which it is changed.
        return slot.session().start().atZone(waiting.zone()).plusMinutes(before).toLocalDateTime();
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
            if (given.size() == EARLIER) {
                break;
            }
            var obstacle = inTheWay.of(appointment, slot).orElseGet(Reasons::nothing);
            if (!alone(obstacle.rule())) {
                given.add("%s on %s: %s"
                        .formatted(slot.session().id(), slot.session().date(), obstacle.text()));
            }
        }
        return given;
    }

    private String whyNot(Appointment appointment, List<Slot> all) {
        var kind = appointment.step().kind().session().words();
        if (all.isEmpty()) {
            return "%s There is no session of the %s from %s on. Add one."
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
                .map(slot -> inTheWay.of(appointment, slot).orElseGet(Reasons::nothing))
                .toList();
    }

    private static Obstacle nothing() {
        return new Obstacle(PlanRule.NO_IDLE_MINUTES, "nothing is in the way, but the search did not come to it");
    }

    /** What is in the way, each once, with in how many sessions it is. */
    private static String summary(List<Obstacle> obstacles) {
        return obstacles.stream()
                .collect(Collectors.groupingBy(Obstacle::together, LinkedHashMap::new, Collectors.counting()))
                .entrySet()
                .stream()
                .map(entry -> "%d %s: %s"
                        .formatted(entry.getValue(), entry.getValue() == 1 ? "session" : "sessions", entry.getKey()))
                .collect(Collectors.joining("; "));
    }
}
