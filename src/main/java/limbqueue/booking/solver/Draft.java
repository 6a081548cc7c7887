package limbqueue.booking.solver;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningSolutionMetaModel;
import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningVariableMetaModel;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.builtin.Moves;
import java.util.ArrayList;
import java.util.Arrays;
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

    /** The place of what sessions overrun among the levels, and where a plan is kept. */
    private static final int OVERRUN = 2;

    private static final int OVERRUN_WHERE_KEPT = 4;

    /** How many levels count for most. */
    private static final int MOST = 4;

    private static final int MOST_WHERE_KEPT = 5;

    /** As many as most sessions hold. */
    private static final int FEW = 8;

    private final List<Appointment> appointments;
    private final boolean keeping;
    /** Before all changes. */
    private final Load before;
    /** With these changes. */
    private final Load load;

    /** Where each is before all changes, by its number. */
    private final @Nullable Slot[] now;
    /** What each adds there to the lateness of its case. */
    private final long[] late;

    /** Who is changed, by number. */
    private final int[] changed;

    private int changes;
    /** Where those who are changed go, by their number. */
    private final @Nullable Slot[] to;

    private final boolean[] isChanged;
    /** Before all changes: the numbers of those in each session, as many as {@link #sizes} says. */
    private final int[][] members;

    private final int[] sizes;
    /** The place of each among the members of its session. */
    private final int[] place;
    /** The numbers of the sessions that some change concerns. */
    private final int[] concerned;

    private int concerns;
    private final boolean[] isConcerned;
    private final long[] lost = new long[Timetable.SOFT_LEVELS];

    private boolean possible = true;

    /**
     * @param load of {@code appointments} as they are
     * @param keeping whether a plan is kept
     */
    Draft(List<Appointment> appointments, Load load, boolean keeping) {
        var size = appointments.size();
        this.appointments = appointments;
        this.keeping = keeping;
        this.before = load;
        this.load = load.copy();
        this.now = new Slot[size];
        this.late = new long[size];
        this.changed = new int[size];
        this.to = new Slot[size];
        this.isChanged = new boolean[size];
        this.members = new int[load.sessions()][];
        this.sizes = new int[load.sessions()];
        this.place = new int[size];
        this.concerned = new int[load.sessions()];
        this.isConcerned = new boolean[load.sessions()];
        for (var appointment : appointments) {
            var number = appointment.getNumber();
            var slot = appointment.getSlot();
            now[number] = slot;
            late[number] = appointment.latePoints();
            if (slot != null) {
                enter(slot.number(), number);
            }
        }
    }

    private void enter(int session, int number) {
        var there = members[session];
        if (there == null) {
            members[session] = there = new int[FEW];
        } else if (sizes[session] == there.length) {
            members[session] = there = Arrays.copyOf(there, 2 * there.length);
        }
        place[number] = sizes[session];
        there[sizes[session]++] = number;
    }

    private void leave(int session, int number) {
        var there = members[session];
        var last = there[--sizes[session]];
        there[place[number]] = last;
        place[last] = place[number];
    }

    /** What sessions hold with these changes. */
    Load load() {
        return load;
    }

    /** Forgets all changes. */
    void clear() {
        for (var i = 0; i < concerns; i++) {
            load.take(before, concerned[i]);
            isConcerned[concerned[i]] = false;
        }
        for (var i = 0; i < changes; i++) {
            isChanged[changed[i]] = false;
        }
        changes = 0;
        concerns = 0;
        possible = true;
    }

    /** Makes the changes, begins anew behind them, and says who has been moved. */
    List<Appointment> commit() {
        for (var i = 0; i < concerns; i++) {
            before.take(load, concerned[i]);
        }
        var moved = new ArrayList<Appointment>(changes);
        for (var i = 0; i < changes; i++) {
            if (to[changed[i]] != now[changed[i]]) {
                moved.add(appointments.get(changed[i]));
                move(changed[i]);
            }
        }
        clear();
        return moved;
    }

    private void move(int number) {
        var from = now[number];
        var slot = to[number];
        if (from != null) {
            leave(from.number(), number);
        }
        if (slot != null) {
            enter(slot.number(), number);
        }
        now[number] = slot;
        late[number] = appointments.get(number).latePoints(slot);
    }

    @Nullable
    Slot at(Appointment appointment) {
        var number = appointment.getNumber();
        return isChanged[number] ? to[number] : now[number];
    }

    /** Where it is before all changes. */
    @Nullable
    Slot now(Appointment appointment) {
        return now[appointment.getNumber()];
    }

    /** What it adds to the lateness of its case before all changes. */
    long late(Appointment appointment) {
        return late[appointment.getNumber()];
    }

    /** Who is in the session of this number with these changes. */
    List<Appointment> in(int session) {
        var in = new ArrayList<Appointment>();
        var there = members[session];
        for (var i = sizes[session] - 1; i >= 0; i--) {
            if (!isChanged[there[i]]) {
                in.add(appointments.get(there[i]));
            }
        }
        if (isConcerned[session]) {
            for (var i = 0; i < changes; i++) {
                var slot = to[changed[i]];
                if (slot != null && slot.number() == session) {
                    in.add(appointments.get(changed[i]));
                }
            }
        }
        return in;
    }

    void put(Appointment appointment, @Nullable Slot slot) {
        if (slot != null && !appointment.range().has(slot.number())) {
            possible = false;
        }
        var number = appointment.getNumber();
        load.move(appointment, at(appointment), slot);
        concern(slot);
        if (!isChanged[number]) {
            concern(now[number]);
            isChanged[number] = true;
            changed[changes++] = number;
        }
        to[number] = slot;
    }

    private void concern(@Nullable Slot slot) {
        if (slot != null && !isConcerned[slot.number()]) {
            isConcerned[slot.number()] = true;
            concerned[concerns++] = slot.number();
        }
    }

    /**
     * Whether {@code appointment} can be in {@code slot} between its neighbours and beside what is there; then it is put there.
     *
     * @param inTime whether the session must not end later by it either
     */
    boolean putWhereItGoes(Appointment appointment, Slot slot, boolean inTime) {
        if (!appointment.range().has(slot.number())
                || !(inTime ? hasTime(appointment, slot) : hasRoom(appointment, slot))) {
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

    /** Whether the step behind {@code one} can be where it is, if it is anywhere, when {@code one} is in {@code slot}. */
    boolean reaches(Appointment one, @Nullable Slot slot) {
        if (one.last()) {
            return true;
        }
        var next = appointments.get(one.getNumber() + 1);
        var at = at(next);
        return slot != null && (at == null || Fit.inOrder(next.step(), at, slot));
    }

    /** The end of those places in the range of {@code one} out of which the step behind it can be reached. */
    int endOfReach(Appointment one) {
        var range = one.range();
        var after = one.last() ? null : at(appointments.get(one.getNumber() + 1));
        var end = after == null ? range.size() : range.placeOf(after.number());
        while (end > 0 && !reaches(one, range.get(end - 1))) {
            end--;
        }
        return end;
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
        // Only to save a look at what was before: most sessions end in time.
        return overrun == 0 || overrun <= before.overrun(slot.number());
    }

    boolean changesNothing() {
        for (var i = 0; i < changes; i++) {
            if (to[changed[i]] != now[changed[i]]) {
                return false;
            }
        }
        return true;
    }

    /** Whether no rule of those that cannot be broken is broken by these changes. */
    boolean possible() {
        if (!possible) {
            return false;
        }
        for (var i = 0; i < changes; i++) {
            var appointment = appointments.get(changed[i]);
            var slot = to[changed[i]];
            if (!inOrder(appointment)
                    || slot != null && !hasRoom(appointment, slot)
                    || !resultsCount(appointment)
                    || slot != null && !apart(appointment, slot)) {
                return false;
            }
        }
        return true;
    }

    /** Whether the last step of the path to which {@code appointment} belongs can rest on it, or on those before it if it is the last. */
    boolean resultsCount(Appointment appointment) {
        if (!appointment.runsOut()) {
            return true;
        }
        var first = appointment.getNumber() - appointment.index();
        var last = appointments.get(first + appointment.waiting().steps().size() - 1);
        var end = at(last);
        if (end == null) {
            return true;
        }
        var from = appointment.last() ? first : appointment.getNumber();
        var to = appointment.last() ? last.getNumber() : appointment.getNumber() + 1;
        for (var number = from; number < to; number++) {
            var earlier = appointments.get(number);
            var slot = at(earlier);
            if (slot != null
                    && !(last.staysIn(end) && earlier.staysIn(slot))
                    && !Fit.stillCounts(earlier.step(), slot, end)) {
                return false;
            }
        }
        return true;
    }

    /** Whether the patient is nowhere else at the time of {@code slot} for another of his cases. */
    boolean apart(Appointment appointment, Slot slot) {
        for (var number : appointment.ofOtherCases()) {
            var other = appointments.get(number);
            var there = at(other);
            if (there != null && !(appointment.staysIn(slot) && other.staysIn(there)) && !Fit.apart(slot, there)) {
                return false;
            }
        }
        return true;
    }

    /** Works out what is lost by these changes, level by level. */
    void weigh() {
        Arrays.fill(lost, 0);
        for (var i = 0; i < changes; i++) {
            var from = now[changed[i]];
            var slot = to[changed[i]];
            if (slot != from) {
                weigh(appointments.get(changed[i]), from, slot);
            }
        }
        lost[keeping ? OVERRUN_WHERE_KEPT : OVERRUN] = longer();
    }

    private void weigh(Appointment appointment, @Nullable Slot from, @Nullable Slot slot) {
        var later = keeping
                ? appointment.latePointsAdded(slot) - appointment.latePointsAdded(from)
                : appointment.latePoints(slot) - late[appointment.getNumber()];
        switch (appointment.level()) {
            case PROMISES_OF_5_DAYS -> lost[0] += later;
            case PROMISES_OF_14_DAYS -> lost[1] += later;
            default -> lost[3] += keeping ? 0 : later;
        }
        var told = one(appointment.movesTold(slot)) - one(appointment.movesTold(from));
        if (keeping) {
            lost[2] += told;
            lost[3] += one(appointment.leavesKept(slot)) - one(appointment.leavesKept(from));
        } else {
            lost[4] += told;
            lost[5] += idleMinutes(appointment, slot) - idleMinutes(appointment, from);
        }
    }

    private static long idleMinutes(Appointment appointment, @Nullable Slot slot) {
        return slot == null ? 0 : appointment.expected() * slot.daysAhead();
    }

    /**
     * What is lost by the changes that were weighed last, below 0 where something is won: where no plan is kept at each level of the
     * score; where one is, only at those that count for most.
     */
    long[] lost() {
        return lost;
    }

    /**
     * Whether something is lost by them at the first level that changes and counts for most: promises, then, where a plan is kept, told
     * patients and places that are kept, then the time at which sessions end, then, where no plan is kept, days late. A change that
     * loses there is seldom taken, however much it gains below.
     */
    boolean loses() {
        return first(lost, keeping ? MOST_WHERE_KEPT : MOST) > 0;
    }

    /** The first of the first {@code most} levels of {@code lost} that is not 0, if one is. */
    static long first(long[] lost, int most) {
        for (var level = 0; level < most; level++) {
            if (lost[level] != 0) {
                return lost[level];
            }
        }
        return 0;
    }

    /** By how many minutes sessions would have to be longer than before. */
    private long longer() {
        var longer = 0L;
        for (var i = 0; i < concerns; i++) {
            longer += load.overrun(concerned[i]) - before.overrun(concerned[i]);
        }
        return longer;
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
        for (var i = 0; i < changes; i++) {
            var number = changed[i];
            // Whoever stays need not be judged; but a move must move somebody.
            if (to[number] != now[number] || changes == 1) {
                moves.add(move(appointments.get(number), to[number]));
            }
        }
        return moves.size() == 1 ? moves.getFirst() : Moves.compose(moves);
    }

    static Move<Timetable> move(Appointment appointment, @Nullable Slot slot) {
        return Moves.change(SLOT, appointment, slot);
    }
}
