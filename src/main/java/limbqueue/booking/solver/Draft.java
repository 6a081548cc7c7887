package limbqueue.booking.solver;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningSolutionMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningVariableMetaModel;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.builtin.Moves;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
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

    private static final int NONE = -1;

    private final List<Appointment> appointments;
    /** Before all changes. */
    private final Load before;
    /** With these changes. */
    private final Load load;

    private final List<Appointment> changed = new ArrayList<>();
    /** Where those who are changed go, by their number. */
    private final @Nullable Slot[] to;

    private final boolean[] isChanged;
    /** Before all changes: by the number of each session the appointment in it that has the highest number, -1 for none. */
    private final int[] lastIn;
    /** By the number of each appointment that of the next in its session, -1 for none. */
    private final int[] nextIn;
    /** The numbers of the sessions that some change concerns. */
    private final BitSet concerned = new BitSet();

    private boolean possible = true;

    /** @param load of {@code appointments} as they are */
    Draft(List<Appointment> appointments, Load load) {
        this.appointments = appointments;
        this.before = load;
        this.load = load.copy();
        this.to = new Slot[appointments.size()];
        this.isChanged = new boolean[appointments.size()];
        this.lastIn = new int[load.sessions()];
        this.nextIn = new int[appointments.size()];
        Arrays.fill(lastIn, NONE);
        for (var appointment : appointments) {
            var slot = appointment.getSlot();
            if (slot != null) {
                nextIn[appointment.getNumber()] = lastIn[slot.number()];
                lastIn[slot.number()] = appointment.getNumber();
            }
        }
    }

    /** Forgets all changes. */
    void clear() {
        for (var appointment : changed) {
            load.move(appointment, at(appointment), appointment.getSlot());
            isChanged[appointment.getNumber()] = false;
        }
        changed.clear();
        concerned.clear();
        possible = true;
    }

    @Nullable
    Slot at(Appointment appointment) {
        return isChanged[appointment.getNumber()] ? to[appointment.getNumber()] : appointment.getSlot();
    }

    /** Who is in the session of this number with these changes. */
    List<Appointment> in(int session) {
        var in = new ArrayList<Appointment>();
        for (var number = lastIn[session]; number != NONE; number = nextIn[number]) {
            if (!isChanged[number]) {
                in.add(appointments.get(number));
            }
        }
        for (var appointment : changed) {
            var slot = to[appointment.getNumber()];
            if (slot != null && slot.number() == session) {
                in.add(appointment);
            }
        }
        return in;
    }

    void put(Appointment appointment, @Nullable Slot slot) {
        if (slot != null && !takes(appointment, slot)) {
            possible = false;
        }
        var number = appointment.getNumber();
        load.move(appointment, at(appointment), slot);
        concern(slot);
        if (!isChanged[number]) {
            concern(appointment.getSlot());
            isChanged[number] = true;
            changed.add(appointment);
        }
        to[number] = slot;
    }

    private void concern(@Nullable Slot slot) {
        if (slot != null) {
            concerned.set(slot.number());
        }
    }

    /** Whether {@code appointment} can be in {@code slot} between its neighbours and beside what is there; then it is put there. */
    boolean putWhereItGoes(Appointment appointment, Slot slot, boolean inTime) {
        if (!takes(appointment, slot) || !(inTime ? hasTime(appointment, slot) : hasRoom(appointment, slot))) {
            return false;
        }
        var there = at(appointment);
        put(appointment, slot);
        if (inOrder(appointment)) {
            return true;
        }
        put(appointment, there);
        return false;
    }

    /** Whether {@code appointment} comes after the step before it and before the one behind it. */
    private boolean inOrder(Appointment appointment) {
        return (appointment.index() == 0 || inOrder(appointments.get(appointment.getNumber() - 1), appointment))
                && (appointment.last() || inOrder(appointment, appointments.get(appointment.getNumber() + 1)));
    }

    /** Whether {@code slot} has room for {@code appointment} beside what is in it with these changes. */
    boolean hasRoom(Appointment appointment, Slot slot) {
        var there = at(appointment) == slot;
        if (load.all(slot) + (there ? 0 : appointment.expected()) > slot.minutes()) {
            return false;
        }
        return slot.held() == 0
                || appointment.urgent()
                || load.others(slot) + (there ? 0 : appointment.expectedOfOthers()) <= slot.open()
                // Whoever has been told of it keeps the place, held or not.
                || load.untold(slot) + (there ? 0 : appointment.expectedUntoldIn(slot)) == 0;
    }

    /** Whether {@code slot} has room for {@code appointment}, and does not end later by it than it did before all changes. */
    boolean hasTime(Appointment appointment, Slot slot) {
        if (!hasRoom(appointment, slot)) {
            return false;
        }
        var overrun = at(appointment) == slot ? load.overrun(slot.number()) : load.overrunWith(appointment, slot);
        return overrun == 0 || overrun <= before.overrun(slot.number());
    }

    boolean changesNothing() {
        for (var appointment : changed) {
            if (to[appointment.getNumber()] != appointment.getSlot()) {
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
        for (var appointment : changed) {
            var slot = to[appointment.getNumber()];
            if (!inOrder(appointment) || slot != null && !hasRoom(appointment, slot)) {
                return false;
            }
        }
        return true;
    }

    /**
     * Whether something is lost at the first level that changes: promises, then, where a plan is kept, told patients and places that
     * are kept, then the time at which sessions end, then, where no plan is kept, days late. A change that loses there is seldom taken,
     * however much it gains below.
     */
    boolean loses(boolean keeping) {
        var lost = new long[6];
        for (var appointment : changed) {
            var slot = to[appointment.getNumber()];
            var now = appointment.getSlot();
            if (slot == now) {
                continue;
            }
            var late = keeping
                    ? appointment.latePointsAdded(slot) - appointment.latePointsAdded(now)
                    : appointment.latePoints(slot) - appointment.latePoints();
            switch (appointment.level()) {
                case PROMISES_OF_5_DAYS -> lost[0] += late;
                case PROMISES_OF_14_DAYS -> lost[1] += late;
                default -> lost[5] += keeping ? 0 : late;
            }
            if (keeping) {
                lost[2] += one(appointment.movesTold(slot)) - one(appointment.movesTold(now));
                lost[3] += one(appointment.leavesKept(slot)) - one(appointment.leavesKept(now));
            }
        }
        for (var number = concerned.nextSetBit(0); number >= 0; number = concerned.nextSetBit(number + 1)) {
            lost[4] += load.overrun(number) - before.overrun(number);
        }
        for (var level : lost) {
            if (level != 0) {
                return level > 0;
            }
        }
        return false;
    }

    private static int one(boolean is) {
        return is ? 1 : 0;
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
        for (var appointment : changed) {
            var slot = to[appointment.getNumber()];
            // Whoever stays need not be judged; but a move must move somebody.
            if (slot != appointment.getSlot() || changed.size() == 1) {
                moves.add(Moves.change(SLOT, appointment, slot));
            }
        }
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
