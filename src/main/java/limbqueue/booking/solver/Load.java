package limbqueue.booking.solver;

import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Expected minutes in each session of a timetable, by the session's number. */
final class Load {

    private final List<Slot> slots;
    private final Overruns overruns;
    private final long[] all;
    private final long[] variance;
    private final long[] others;
    private final long[] untold;

    private Load(List<Slot> slots, Overruns overruns, long[] all, long[] variance, long[] others, long[] untold) {
        this.slots = slots;
        this.overruns = overruns;
        this.all = all;
        this.variance = variance;
        this.others = others;
        this.untold = untold;
    }

    /** As the timetable is. */
    static Load of(Timetable timetable, Overruns overruns) {
        var size = timetable.slots().size();
        var load =
                new Load(timetable.slots(), overruns, new long[size], new long[size], new long[size], new long[size]);
        for (var appointment : timetable.getAppointments()) {
            load.add(appointment, appointment.getSlot(), 1);
        }
        return load;
    }

    /** The same, to be changed by itself. */
    Load copy() {
        return new Load(slots, overruns, all.clone(), variance.clone(), others.clone(), untold.clone());
    }

    /** Takes {@code appointment} out of one session and puts it into another. */
    void move(Appointment appointment, @Nullable Slot from, @Nullable Slot to) {
        add(appointment, from, -1);
        add(appointment, to, 1);
    }

    private void add(Appointment appointment, @Nullable Slot slot, int times) {
        if (slot == null) {
            return;
        }
        var number = slot.number();
        all[number] += times * appointment.expected();
        variance[number] += times * appointment.variance();
        if (slot.held() > 0) {
            others[number] += times * appointment.expectedOfOthers();
            untold[number] += times * appointment.expectedUntoldIn(slot);
        }
    }

    /** Takes all of {@code other}, of the same sessions. */
    void take(Load other) {
        System.arraycopy(other.all, 0, all, 0, all.length);
        System.arraycopy(other.variance, 0, variance, 0, all.length);
        System.arraycopy(other.others, 0, others, 0, all.length);
        System.arraycopy(other.untold, 0, untold, 0, all.length);
    }

    /** Whether sessions have as much to hold as in {@code other}, of the same sessions. */
    boolean sameAs(Load other) {
        return Arrays.equals(all, other.all)
                && Arrays.equals(variance, other.variance)
                && Arrays.equals(others, other.others)
                && Arrays.equals(untold, other.untold);
    }

    /** Takes from {@code other}, of the same sessions, what it has of the one of this number. */
    void take(Load other, int number) {
        all[number] = other.all[number];
        variance[number] = other.variance[number];
        others[number] = other.others[number];
        untold[number] = other.untold[number];
    }

    /** How many sessions there are. */
    int sessions() {
        return slots.size();
    }

    /** Of everybody in {@code slot}. */
    long all(Slot slot) {
        return all[slot.number()];
    }

    /** By how many minutes the session of this number would have to be longer. */
    long overrun(int number) {
        return overruns.of(all[number], variance[number], slots.get(number).minutes());
    }

    /** By how many minutes {@code slot} would have to be longer if it took {@code appointment} as well. */
    long overrunWith(Appointment appointment, Slot slot) {
        return overruns.of(
                all(slot) + appointment.expected(), variance[slot.number()] + appointment.variance(), slot.minutes());
    }

    /** Of those for whom no time is held; of a session that holds some. */
    long others(Slot slot) {
        return others[slot.number()];
    }

    /** Of those of them who have not been told of it. */
    long untold(Slot slot) {
        return untold[slot.number()];
    }
}
