package limbqueue.booking.solver;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.Obstacle;
import limbqueue.booking.PlanRule;
import limbqueue.booking.StepMinutes;

/** What is in the way of an appointment in a session, with everything else as planned. */
final class InTheWay {

    /** Cases of a full session that are named. */
    private static final int NAMED = 3;

    private final Timetable timetable;
    private final Map<Slot, List<Appointment>> held = new LinkedHashMap<>();
    private final Map<String, List<Appointment>> ofPatient = new HashMap<>();

    InTheWay(Timetable timetable) {
        this.timetable = timetable;
        for (var appointment : timetable.getAppointments()) {
            ofPatient
                    .computeIfAbsent(appointment.patient(), _ -> new ArrayList<>())
                    .add(appointment);
            appointment
                    .placed()
                    .ifPresent(slot ->
                            held.computeIfAbsent(slot, _ -> new ArrayList<>()).add(appointment));
        }
    }

    /** The appointments of a session, most urgent first. */
    List<Appointment> held(Slot slot) {
        return held.getOrDefault(slot, List.of());
    }

    /** The minutes expected of all appointments of a session. */
    long expected(Slot slot) {
        return held(slot).stream().mapToLong(Appointment::expected).sum();
    }

    /** The variance of all appointments of a session, in minutes squared. */
    long variance(Slot slot) {
        return held(slot).stream().mapToLong(Appointment::variance).sum();
    }

    /** The first thing in the way of {@code appointment} in {@code slot}, in the order of the rules. */
    Optional<Obstacle> of(Appointment appointment, Slot slot) {
        return Fit.alone(appointment.step(), slot)
                .or(() -> order(appointment, slot))
                .or(() -> results(appointment, slot))
                .or(() -> otherPlaces(appointment, slot))
                .or(() -> room(appointment, slot))
                .or(() -> timeHeld(appointment, slot))
                .or(() -> overrun(appointment, slot))
                .or(() -> told(appointment, slot));
    }

    private Optional<Obstacle> order(Appointment appointment, Slot slot) {
        if (appointment.index() == 0) {
            return Optional.empty();
        }
        var before = timetable.getAppointments().get(appointment.getNumber() - 1);
        var words = before.step().kind().words();
        if (before.placed().isEmpty()) {
            return Optional.of(
                    new Obstacle(PlanRule.IN_ORDER, "the step before it, %s, has no place".formatted(words)));
        }
        return Fit.inOrder(appointment.step(), slot, before.at())
                ? Optional.empty()
                : Optional.of(new Obstacle(
                        PlanRule.IN_ORDER,
                        "%s on %s would have to come earlier"
                                .formatted(words, before.at().session().date())));
    }

    private Optional<Obstacle> results(Appointment appointment, Slot slot) {
        if (!appointment.last()) {
            return Optional.empty();
        }
        var first = appointment.getNumber() - appointment.index();
        return timetable.getAppointments().subList(first, appointment.getNumber()).stream()
                .filter(earlier -> earlier.placed()
                        .map(at -> !Fit.stillCounts(earlier.step(), at, slot))
                        .orElse(false))
                .findFirst()
                .map(earlier -> new Obstacle(
                        PlanRule.RESULT_STILL_COUNTS,
                        "%s of %s would not count any more"
                                .formatted(
                                        earlier.step().kind().words(),
                                        earlier.at().session().date())));
    }

    private Optional<Obstacle> otherPlaces(Appointment appointment, Slot slot) {
        return ofPatient.getOrDefault(appointment.patient(), List.of()).stream()
                .filter(other -> other.caseNumber() != appointment.caseNumber()
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
        var minutes = slot.session().minutes();
        var lacking = used + appointment.expected() - minutes;
        return lacking <= 0
                ? Optional.empty()
                : Optional.of(new Obstacle(
                        PlanRule.ROOM_IN_THE_SESSION,
                        "full: %d of %d minutes are held by %s; %d more would have to become free"
                                .formatted(used, minutes, others(appointment, slot), lacking),
                        "full"));
    }

    private Optional<Obstacle> timeHeld(Appointment appointment, Slot slot) {
        if (slot.held() == 0 || appointment.expectedUntoldIn(slot) == 0) {
            return Optional.empty();
        }
        var others = held(slot).stream()
                .filter(other -> other != appointment && !other.urgent())
                .mapToLong(Appointment::expected)
                .sum();
        var lacking = others + appointment.expected() - slot.open();
        var until = slot.session().held().lastDay(slot.session().date());
        return lacking <= 0
                ? Optional.empty()
                : Optional.of(new Obstacle(
                        PlanRule.TIME_HELD,
                        "%d minutes of it are held for urgent cases until the end of %s; %d of them would have to be released"
                                .formatted(slot.held(), until, Math.min(lacking, slot.held())),
                        "what is left of it is held for urgent cases"));
    }

    private String others(Appointment appointment, Slot slot) {
        var others = held(slot).stream().filter(other -> other != appointment).toList();
        var named = others.stream()
                .limit(NAMED)
                .map(other -> "%s (%s, by %s)"
                        .formatted(
                                other.waiting().reference(),
                                other.waiting().tier().words().toLowerCase(Locale.ROOT),
                                other.waiting().target()))
                .collect(Collectors.joining(", "));
        return others.size() > NAMED ? "%s and %d more".formatted(named, others.size() - NAMED) : named;
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
