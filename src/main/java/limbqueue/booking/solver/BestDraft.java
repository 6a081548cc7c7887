package limbqueue.booking.solver;

import ai.timefold.solver.core.api.solver.phase.PhaseCommandContext;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.builtin.Moves;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The best timetable that was there in a search that goes from draft to draft, and how that which is there now differs. */
final class BestDraft {

    private final @Nullable Slot[] slots;
    /** Who may be elsewhere now. */
    private final boolean[] differs;

    private final List<Appointment> different = new ArrayList<>();
    /** What that which is there now has lost beside it. */
    private final long[] lost = new long[Timetable.SOFT_LEVELS];

    BestDraft(Timetable timetable) {
        var appointments = timetable.getAppointments();
        this.slots = new Slot[appointments.size()];
        this.differs = new boolean[appointments.size()];
        for (var one : appointments) {
            slots[one.getNumber()] = one.getSlot();
        }
    }

    /** Sees what has become of those who have been {@code moved}. */
    void follow(List<Appointment> moved, Draft draft) {
        for (var one : moved) {
            if (!differs[one.getNumber()]) {
                differs[one.getNumber()] = true;
                different.add(one);
            }
        }
        for (var level = 0; level < lost.length; level++) {
            lost[level] += draft.lost()[level];
        }
        if (Draft.first(lost, lost.length) < 0) {
            keep(draft);
        }
    }

    private void keep(Draft draft) {
        for (var one : different) {
            slots[one.getNumber()] = draft.now(one);
            differs[one.getNumber()] = false;
        }
        different.clear();
        Arrays.fill(lost, 0);
    }

    /** Has the solver make of its timetable, which is that in the beginning, the best that was there. */
    void handTo(PhaseCommandContext<Timetable> context) {
        var moves = new ArrayList<Move<Timetable>>();
        for (var one : context.getWorkingSolution().getAppointments()) {
            var slot = slots[one.getNumber()];
            if (slot != one.getSlot()) {
                moves.add(Draft.move(one, slot));
            }
        }
        if (!moves.isEmpty()) {
            context.execute(Moves.compose(moves));
        }
    }
}
