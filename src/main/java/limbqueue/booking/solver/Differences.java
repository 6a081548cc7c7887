package limbqueue.booking.solver;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.Barred;
import limbqueue.booking.Replan.Cause;
import limbqueue.booking.Replan.Moved;
import limbqueue.booking.Replan.Without;
import limbqueue.booking.Waiting;
import limbqueue.triage.Tier;

/** Says of a timetable what differs from the plan that is kept, who gives way to whom, and why not somebody else. */
final class Differences {

    /** Cases that are named where there are many. */
    private static final int NAMED = 3;

    private final Timetable timetable;
    private final InTheWay inTheWay;
    private final Reasons reasons;

    Differences(Waiting waiting, Timetable timetable) {
        this.timetable = timetable;
        this.inTheWay = new InTheWay(timetable);
        this.reasons = new Reasons(waiting, timetable);
    }

    /** Whatever changes, most urgent first. */
    List<Moved> moves() {
        return timetable.getAppointments().stream()
                .filter(appointment -> !appointment.asKept(appointment.getSlot()))
                .map(this::moved)
                .toList();
    }

    /** Cases of which a step has no place. */
    List<Without> without() {
        var byCase = new LinkedHashMap<Integer, List<Appointment>>();
        for (var appointment : timetable.getAppointments()) {
            byCase.computeIfAbsent(appointment.caseNumber(), _ -> new ArrayList<>())
                    .add(appointment);
        }
        return byCase.values().stream().flatMap(path -> without(path).stream()).toList();
    }

    private Optional<Without> without(List<Appointment> path) {
        return path.stream()
                .filter(appointment -> appointment.placed().isEmpty())
                .findFirst()
                .map(lacking -> new Without(
                        lacking.waiting().reference(),
                        lacking.waiting().tier(),
                        lacking.waiting().target(),
                        lacking.step().kind(),
                        reasons.casePlan(path).why()));
    }

    private Moved moved(Appointment appointment) {
        var plan = reasons.stepPlan(appointment);
        var cause = cause(appointment);
        return new Moved(
                appointment.waiting().reference(),
                appointment.waiting().tier(),
                appointment.step().kind(),
                appointment.kept(),
                plan.session(),
                plan.at(),
                plan.minutes(),
                appointment.step().told().isPresent() && appointment.kept().isPresent(),
                cause,
                "%s %s"
                        .formatted(
                                why(appointment, cause),
                                plan.session().isPresent() ? plan.why() : "No place: " + plan.why()));
    }

    private Cause cause(Appointment appointment) {
        if (appointment.waiting().tier() == Tier.SAME_DAY) {
            return Cause.EMERGENCY;
        }
        if (appointment.kept().isEmpty()) {
            return Cause.HAD_NO_PLACE;
        }
        var from = appointment.keptSlot();
        if (from == null) {
            return Cause.LOST_ITS_PLACE;
        }
        if (!arrivals(from).isEmpty() && lacking(from, appointment.expected()) > 0) {
            return Cause.GIVES_WAY;
        }
        if (otherStep(appointment).isPresent()) {
            return Cause.FOLLOWS;
        }
        return appointment.placed().map(to -> to.number() < from.number()).orElse(false)
                ? Cause.COMES_EARLIER
                : Cause.GIVES_WAY;
    }

    private String why(Appointment appointment, Cause cause) {
        return switch (cause) {
            case EMERGENCY -> "It needs %d minutes of a procedure room today.".formatted(appointment.expected());
            case HAD_NO_PLACE -> "It had no place.";
            case LOST_ITS_PLACE -> lost(appointment);
            case FOLLOWS ->
                otherStep(appointment)
                        .map(other -> "Its %s %s."
                                .formatted(
                                        other.step().kind().words(),
                                        other.placed()
                                                .map(to -> "moves to "
                                                        + to.session().date())
                                                .orElse("has no place")))
                        .orElse("");
            case COMES_EARLIER -> "There is room for it earlier now.";
            case GIVES_WAY -> givesWay(appointment);
        };
    }

    private String lost(Appointment appointment) {
        return appointment
                .kept()
                .flatMap(timetable::named)
                .map(slot -> slot.session().closed()
                        ? "Its session is closed%s."
                                .formatted(slot.session()
                                        .closedFor()
                                        .map(": "::concat)
                                        .orElse(""))
                        : Fit.barred(appointment.step(), slot)
                                .map(Barred::why)
                                .map("It cannot stay: %s."::formatted)
                                .orElse("Its session is over."))
                .orElse("Its session is not there any more.");
    }

    private String givesWay(Appointment appointment) {
        var from = appointment.keptSlot();
        if (from == null || arrivals(from).isEmpty()) {
            return "Nothing is in the way of its place, but the search did not come back to it.";
        }
        return "Gives way to %s, as %s has no room for both. %s"
                .formatted(names(arrivals(from)), from.session().id(), others(appointment, from));
    }

    /** Why those in the session who are less urgent do not give way instead. */
    private String others(Appointment appointment, Slot from) {
        var lessUrgent = inTheWay.held(from).stream()
                .filter(other -> other.stays() && other.caseNumber() > appointment.caseNumber())
                .toList();
        if (lessUrgent.isEmpty()) {
            return "Nobody who stays in it is less urgent.";
        }
        var reasonsToStay = new LinkedHashMap<String, List<Appointment>>();
        lessUrgent.forEach(other -> reasonsToStay
                .computeIfAbsent(stays(other, appointment, from), _ -> new ArrayList<>())
                .add(other));
        return reasonsToStay.entrySet().stream()
                .map(Differences::lessUrgentStay)
                .collect(Collectors.joining(" "));
    }

    private static String lessUrgentStay(Map.Entry<String, List<Appointment>> stay) {
        return "Less urgent and stays, %s: %s.".formatted(stay.getKey(), names(stay.getValue()));
    }

    private String stays(Appointment other, Appointment appointment, Slot from) {
        if (other.step().told().isPresent() && appointment.step().told().isEmpty()) {
            return "having been told of it";
        }
        return lacking(from, appointment.expected() - other.expected()) > 0
                ? "being too short to make room enough"
                : "as no plan was found that loses less by moving it";
    }

    /** Minutes that the session would have to be longer to take so many more, 0 or less if it has them. */
    private long lacking(Slot slot, long more) {
        return inTheWay.expected(slot) + more - slot.session().minutes();
    }

    /** Who is in a session and was not before. */
    private List<Appointment> arrivals(Slot slot) {
        return inTheWay.held(slot).stream().filter(one -> !one.stays()).toList();
    }

    private Optional<Appointment> otherStep(Appointment appointment) {
        var first = appointment.getNumber() - appointment.index();
        return timetable
                .getAppointments()
                .subList(first, first + appointment.waiting().steps().size())
                .stream()
                .filter(other -> other != appointment && !other.asKept(other.getSlot()))
                .findFirst();
    }

    private static String names(List<Appointment> appointments) {
        var named = appointments.stream()
                .limit(NAMED)
                .map(one -> "%s (%s)"
                        .formatted(
                                one.waiting().reference(),
                                one.waiting().tier().words().toLowerCase(Locale.ROOT)))
                .collect(Collectors.joining(", "));
        return appointments.size() > NAMED ? "%s and %d more".formatted(named, appointments.size() - NAMED) : named;
    }
}
