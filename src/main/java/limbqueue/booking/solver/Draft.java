package limbqueue.booking.solver;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningSolutionMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningVariableMetaModel;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.builtin.Moves;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.ToLongFunction;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.StepMinutes;
import org.jspecify.annotations.Nullable;

/**
 * Some changes to a timetable that are thought through before they are made: most changes that come to mind put a step before the
 * one it waits for or too much into a session, and need not be judged any further.
 */
final class Draft {

    private static final PlanningVariableMetaModel<Timetable, Appointment, Slot> SLOT = PlanningSolutionMetaModel.of(
                    Timetable.class, Appointment.class)
            .genuineEntity(Appointment.class)
            .basicVariable("slot", Slot.class);

    private final List<Appointment> appointments;
    private final Load load;

    private final Map<Appointment, @Nullable Slot> changes = new LinkedHashMap<>();
    /** The numbers of the sessions that some change concerns: most are as they were. */
    private final BitSet concerned = new BitSet();

    private boolean possible = true;

    Draft(List<Appointment> appointments, Load load) {
        this.appointments = appointments;
        this.load = load;
    }

    @Nullable
    Slot at(Appointment appointment) {
        return changes.containsKey(appointment) ? changes.get(appointment) : appointment.getSlot();
    }

    void put(Appointment appointment, @Nullable Slot slot) {
        if (slot != null && !takes(appointment, slot)) {
            possible = false;
        }
        concern(slot);
        concern(appointment.getSlot());
        changes.put(appointment, slot);
    }

    private void concern(@Nullable Slot slot) {
        if (slot != null) {
            concerned.set(slot.number());
        }
    }

    /** Whether {@code appointment} can be in {@code slot} between its neighbours and beside what is there with these changes. */
    boolean goes(Appointment appointment, Slot slot) {
        if (!takes(appointment, slot) || !hasRoom(appointment, slot)) {
            return false;
        }
        var before = changes.put(appointment, slot);
        var goes = inOrder(appointment);
        changes.put(appointment, before);
        return goes;
    }

    /** Whether {@code appointment} comes after the step before it and before the one behind it. */
    private boolean inOrder(Appointment appointment) {
        return (appointment.index() == 0 || inOrder(appointments.get(appointment.getNumber() - 1), appointment))
                && (appointment.last() || inOrder(appointment, appointments.get(appointment.getNumber() + 1)));
    }

    /** Whether {@code slot} has room for {@code appointment} beside what is in it with these changes. */
    boolean hasRoom(Appointment appointment, Slot slot) {
        if (used(appointment, slot, load.all(slot), Appointment::expected)
                > slot.session().minutes()) {
            return false;
        }
        return slot.held() == 0
                || appointment.urgent()
                || used(appointment, slot, load.others(slot), Appointment::expectedOfOthers) <= slot.open()
                // Whoever has been told of it keeps the place, held or not.
                || used(appointment, slot, load.untold(slot), one -> one.expectedUntoldIn(slot)) == 0;
    }

    /** What {@code slot} holds with these changes and with {@code appointment}. */
    private long used(Appointment appointment, Slot slot, long before, ToLongFunction<Appointment> minutes) {
        var used = before;
        if (changes.containsKey(appointment) || appointment.getSlot() != slot) {
            used += minutes.applyAsLong(appointment);
        }
        if (!concerned.get(slot.number())) {
            return used;
        }
        for (var change : changes.entrySet()) {
            var changed = change.getKey();
            if (changed.getSlot() == slot) {
                used -= minutes.applyAsLong(changed);
            }
            if (changed != appointment && change.getValue() == slot) {
                used += minutes.applyAsLong(changed);
            }
        }
        return used;
    }

    boolean changesNothing() {
        for (var change : changes.entrySet()) {
            if (change.getValue() != change.getKey().getSlot()) {
                return false;
            }
        }
        return true;
    }

    /** Whether steps are in their order, and no session has more than fits into it. */
    boolean possible() {
        if (!possible) {
            return false;
        }
        for (var change : changes.entrySet()) {
            var appointment = change.getKey();
            var slot = change.getValue();
            if (!inOrder(appointment) || slot != null && !hasRoom(appointment, slot)) {
                return false;
            }
        }
        return true;
    }

    /**
     * Whether something is lost at the first level that changes: promises, then, where a plan is kept, told patients and places that
     * are kept, then the time at which sessions end. A change that loses there is seldom taken, however much it gains below.
     */
    boolean loses(boolean keeping) {
        var lost = new long[4];
        var touched = new LinkedHashSet<Slot>();
        changes.forEach((appointment, slot) -> {
            var level = appointment.level();
            if (level != Level.LATENESS) {
                lost[level == Level.PROMISES_OF_5_DAYS ? 0 : 1] += keeping
                        ? appointment.latePointsAdded(slot) - appointment.latePointsAdded(appointment.getSlot())
                        : appointment.latePoints(slot) - appointment.latePoints(appointment.getSlot());
            }
            if (keeping) {
                lost[2] += one(appointment.movesTold(slot)) - one(appointment.movesTold(appointment.getSlot()));
                lost[3] += one(appointment.leavesKept(slot)) - one(appointment.leavesKept(appointment.getSlot()));
            }
            touched.add(appointment.getSlot());
            touched.add(slot);
        });
        for (var level : lost) {
            if (level != 0) {
                return level > 0;
            }
        }
        return touched.stream()
                        .filter(Objects::nonNull)
                        .mapToLong(this::overrunAdded)
                        .sum()
                > 0;
    }

    private static int one(boolean is) {
        return is ? 1 : 0;
    }

    /** Whether {@code slot} has room for {@code appointment} beside what is in it with these changes, and does not end later by it. */
    boolean hasTime(Appointment appointment, Slot slot) {
        return hasRoom(appointment, slot)
                && StepMinutes.overrun(
                                used(appointment, slot, load.all(slot), Appointment::expected),
                                used(appointment, slot, load.variance(slot), Appointment::variance),
                                slot.session().minutes())
                        <= load.overrun(slot);
    }

    private long overrunAdded(Slot slot) {
        var expected = load.all(slot);
        var variance = load.variance(slot);
        for (var change : changes.entrySet()) {
            var appointment = change.getKey();
            var gain = one(change.getValue() == slot) - one(appointment.getSlot() == slot);
            expected += gain * appointment.expected();
            variance += gain * appointment.variance();
        }
        return StepMinutes.overrun(expected, variance, slot.session().minutes()) - load.overrun(slot);
    }

    private boolean inOrder(Appointment before, Appointment after) {
        var there = at(after);
        if (there == null) {
            return true;
        }
        var here = at(before);
        if (there == after.keptSlot() && before.asKept(here)) {
            return true;
        }
        return here != null && Fit.inOrder(after.step(), there, here);
    }

    Move<Timetable> move() {
        var moves = new ArrayList<Move<Timetable>>();
        changes.forEach((appointment, slot) -> moves.add(Moves.change(SLOT, appointment, slot)));
        return moves.size() == 1 ? moves.getFirst() : Moves.compose(moves);
    }

    /** Whether {@code slot} is in the range of {@code appointment}, which is sorted by time. */
    static boolean takes(Appointment appointment, Slot slot) {
        var at = placeOf(appointment, slot.number());
        return at < appointment.getRange().size() && appointment.getRange().get(at) == slot;
    }

    /** The place in the range of {@code appointment} of the first session that has {@code number} or comes after it. */
    static int placeOf(Appointment appointment, int number) {
        var range = appointment.getRange();
        var from = 0;
        var to = range.size();
        while (from < to) {
            var middle = (from + to) >>> 1;
            if (range.get(middle).number() < number) {
                from = middle + 1;
            } else {
                to = middle;
            }
        }
        return from;
    }
}
