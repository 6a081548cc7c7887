package limbqueue.booking.solver;

import ai.timefold.solver.core.api.domain.solution.PlanningEntityCollectionProperty;
import ai.timefold.solver.core.api.domain.solution.PlanningScore;
import ai.timefold.solver.core.api.domain.solution.PlanningSolution;
import ai.timefold.solver.core.api.score.BendableScore;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.KeptPlaces;
import limbqueue.booking.Session;
import limbqueue.booking.Waiting;
import org.jspecify.annotations.Nullable;

/** All appointments and sessions: what the solver looks for. */
@PlanningSolution
public class Timetable {

    static final int HARD_LEVELS = 1;
    static final int SOFT_LEVELS = 6;

    private List<Appointment> appointments;
    private List<Slot> slots;
    private @Nullable BendableScore score;

    /** For the solver, which makes copies. */
    @SuppressWarnings("NullAway.Init")
    public Timetable() {}

    private Timetable(List<Appointment> appointments, List<Slot> slots) {
        this.appointments = appointments;
        this.slots = slots;
    }

    /** Everything that waits, and nothing placed yet. */
    static Timetable of(Waiting waiting) {
        return of(waiting, new KeptPlaces(Map.of()));
    }

    /**
     * Everything that waits, where it is kept.
     *
     * @param kept where steps are in the plan that is kept
     * @param stillPossible those places that can stay
     */
    static Timetable of(Waiting waiting, KeptPlaces kept, KeptPlaces stillPossible) {
        var timetable = of(waiting, stillPossible);
        for (var appointment : timetable.appointments) {
            var reference = appointment.waiting().reference();
            var step = appointment.step().kind();
            kept.of(reference, step)
                    .ifPresent(session -> appointment.keep(
                            session,
                            waiting.sessions().stream()
                                    .filter(one -> one.id().equals(session))
                                    .map(Session::date)
                                    .findFirst(),
                            stillPossible
                                    .of(reference, step)
                                    .flatMap(timetable::named)
                                    .orElse(null)));
        }
        return timetable;
    }

    private static Timetable of(Waiting waiting, KeptPlaces kept) {
        var slots = new ArrayList<Slot>();
        for (var session : waiting.sessions()) {
            slots.add(new Slot(session, slots.size(), waiting.asOf()));
        }
        var appointments = new ArrayList<Appointment>();
        for (var number = 0; number < waiting.cases().size(); number++) {
            var of = waiting.cases().get(number);
            for (var index = 0; index < of.steps().size(); index++) {
                var step = of.steps().get(index);
                var stays = kept.of(of.reference(), step.kind());
                var range = slots.stream()
                        .filter(slot ->
                                stays.filter(slot.session().id()::equals).isPresent()
                                        || Fit.alone(step, slot).isEmpty())
                        .toList();
                appointments.add(new Appointment(appointments.size(), of, number, index, range, waiting.lastDay()));
            }
        }
        appointments.stream()
                .collect(Collectors.groupingBy(Appointment::patient))
                .values()
                .forEach(Timetable::apart);
        return new Timetable(appointments, slots);
    }

    /** Says to all of one patient's who must not be at the same time. */
    private static void apart(List<Appointment> ofPatient) {
        for (var one : ofPatient) {
            one.besides(ofPatient.stream()
                    .filter(other -> other.caseNumber() != one.caseNumber())
                    .mapToInt(Appointment::getNumber)
                    .toArray());
        }
    }

    @PlanningEntityCollectionProperty
    public List<Appointment> getAppointments() {
        return appointments;
    }

    public void setAppointments(List<Appointment> appointments) {
        this.appointments = appointments;
    }

    /** Puts those of {@code found}, a timetable of the same sessions and some of the same cases, where they are there, if anywhere. */
    void begin(Timetable found) {
        var places = new HashMap<String, Optional<Slot>>();
        for (var appointment : found.appointments) {
            places.put(name(appointment), appointment.placed().map(slot -> slots.get(slot.number())));
        }
        for (var appointment : appointments) {
            var place = places.get(name(appointment));
            if (place != null) {
                appointment.setSlot(place.orElse(null));
            }
        }
    }

    private static String name(Appointment appointment) {
        return appointment.index() + " " + appointment.waiting().reference();
    }

    /** The session of this name. */
    Optional<Slot> named(String session) {
        return slots.stream()
                .filter(slot -> slot.session().id().equals(session))
                .findFirst();
    }

    List<Slot> slots() {
        return slots;
    }

    @PlanningScore(bendableHardLevelsSize = HARD_LEVELS, bendableSoftLevelsSize = SOFT_LEVELS)
    public @Nullable BendableScore getScore() {
        return score;
    }

    public void setScore(@Nullable BendableScore score) {
        this.score = score;
    }
}
