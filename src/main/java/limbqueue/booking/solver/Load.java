package limbqueue.booking.solver;

import java.util.Arrays;
import limbqueue.booking.StepMinutes;

/** Expected minutes in each session of a timetable as it is, by the session's number. */
final class Load {

    private final long[] all;
    private final long[] variance;
    private final long[] others;
    private final long[] untold;
    /** Worked out when it is first asked for. */
    private final long[] overrun;

    private Load(int sessions) {
        this.all = new long[sessions];
        this.variance = new long[sessions];
        this.others = new long[sessions];
        this.untold = new long[sessions];
        this.overrun = new long[sessions];
        Arrays.fill(overrun, -1);
    }

    static Load of(Timetable timetable) {
        var load = new Load(timetable.slots().size());
        for (var appointment : timetable.getAppointments()) {
            var slot = appointment.getSlot();
            if (slot != null) {
                load.all[slot.number()] += appointment.expected();
                load.variance[slot.number()] += appointment.variance();
                if (slot.held() > 0) {
                    load.others[slot.number()] += appointment.expectedOfOthers();
                    load.untold[slot.number()] += appointment.expectedUntold();
                }
            }
        }
        return load;
    }

    /** Of everybody in {@code slot}. */
    long all(Slot slot) {
        return all[slot.number()];
    }

    /** The variance of everybody in {@code slot}, in minutes squared. */
    long variance(Slot slot) {
        return variance[slot.number()];
    }

    /** By how many minutes {@code slot} would have to be longer. */
    long overrun(Slot slot) {
        var number = slot.number();
        if (overrun[number] < 0) {
            overrun[number] = StepMinutes.overrun(
                    all[number], variance[number], slot.session().minutes());
        }
        return overrun[number];
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
