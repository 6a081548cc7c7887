package limbqueue.booking.solver;

import ai.timefold.solver.core.impl.heuristic.selector.move.factory.MoveIteratorFactory;
import ai.timefold.solver.core.impl.score.director.ScoreDirector;
import ai.timefold.solver.core.preview.api.move.Move;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/**
 * Moves that know of paths: one step between its neighbours, a case's whole path, two cases that exchange places, one into the
 * place of another that goes elsewhere, three in a ring, one to the appointment its patient knows of, one into a session out of which
 * others go until it fits, some cases planned anew together, a few sessions packed anew. Those that would break an order or overfill a session are not offered,
 * and seldom those that would break a promise.
 */
public class PathMoves implements MoveIteratorFactory<Timetable, Move<Timetable>> {

    /** How often something possible is looked for before a case is taken out of the plan, which always is. */
    private static final int TRIES = 10;
    /** Of so many moves one may also worsen a promise or the time at which a session ends. */
    private static final int CAREFUL = 30;
    /** How many cases at most are planned anew at once, how often they are looked for, and within how many sessions. */
    private static final int MOST_ANEW = 5;

    private static final int TRIES_ANEW = 40;
    private static final int NEAR = 24;
    /** How far apart the sessions are that are packed anew, counted among those that can take a case. */
    private static final int PACKED_WITHIN = 4;

    private final Overruns overruns = new Overruns();

    @Override
    public long getSize(ScoreDirector<Timetable> director) {
        return director.getWorkingSolution().getAppointments().size();
    }

    @Override
    public Iterator<Move<Timetable>> createOriginalMoveIterator(ScoreDirector<Timetable> director) {
        // Asked for only where every move is tried in turn, which a search by drawn moves never does.
        throw new UnsupportedOperationException("these moves are drawn at random");
    }

    @Override
    public Iterator<Move<Timetable>> createRandomMoveIterator(
            ScoreDirector<Timetable> director, RandomGenerator random) {
        var timetable = director.getWorkingSolution();
        return new Drawn(timetable.getAppointments(), Load.of(timetable, overruns), random);
    }

    /** Moves of one timetable as it is. */
    private static final class Drawn implements Iterator<Move<Timetable>> {
        private final List<Appointment> appointments;
        private final Draft draft;
        private final RandomGenerator random;
        /**
         * Where a plan is kept who is not where that has them, or has no place beside it; where none is, who has no place, comes late
         * or elsewhere than told.
         */
        private final List<Appointment> unsettled;
        /** Whether a plan is kept. */
        private final boolean keeping;
        /** Whether what is drawn may lose nothing that counts for most. */
        private boolean careful;

        Drawn(List<Appointment> appointments, Load load, RandomGenerator random) {
            this.appointments = appointments;
            this.draft = new Draft(appointments, load);
            this.random = random;
            // Plain loops, since this is asked after every change that is taken.
            var kept = false;
            for (var one : appointments) {
                kept |= one.kept().isPresent();
            }
            this.keeping = kept;
            this.unsettled = new ArrayList<>();
            for (var one : appointments) {
                if (one.getSlot() == null || (kept ? one.leavesKept() : one.movesTold() || one.latePoints() > 0)) {
                    unsettled.add(one);
                }
            }
        }

        @Override
        public boolean hasNext() {
            return true;
        }

        @Override
        public Move<Timetable> next() {
            careful = random.nextInt(CAREFUL) > 0;
            for (var i = 0; i < TRIES; i++) {
                draft.clear();
                draw(draft);
                if (!draft.changesNothing() && draft.possible() && !(careful && draft.loses(keeping))) {
                    return draft.move();
                }
            }
            draft.clear();
            draft.put(lastOf(any()), null);
            return draft.move();
        }

        private void draw(Draft draft) {
            if (!unsettled.isEmpty() && random.nextInt(4) == 0) {
                intoWhateverSession(draft, any());
                return;
            }
            if (keeping && random.nextInt(4) == 0) {
                toTheToldSession(draft, any());
                return;
            }
            // Where a plan is kept, as much as can be stays as it is: nobody is planned anew.
            switch (random.nextInt(keeping ? 12 : 20)) {
                case 0, 1, 2 -> shift(draft, any());
                case 3, 4 -> path(draft, any());
                case 5, 6 -> exchange(draft, any());
                case 7 -> exchangePaths(draft, any());
                case 8, 9 -> intoThePlaceOfAnother(draft, any());
                case 10 -> ring(draft);
                case 11 -> toTheToldSession(draft, any());
                case 18, 19 -> repack(draft, any());
                default -> anew(draft);
            }
        }

        private Appointment any() {
            if (!unsettled.isEmpty() && random.nextBoolean()) {
                return unsettled.get(random.nextInt(unsettled.size()));
            }
            return appointments.get(random.nextInt(appointments.size()));
        }

        private Appointment stepOf(Appointment one, int index) {
            return appointments.get(one.getNumber() - one.index() + index);
        }

        /** One step to another session between those of its neighbours, or out of the plan when it is the last. */
        private void shift(Draft draft, Appointment one) {
            if (one.last() && random.nextInt(20) == 0) {
                draft.put(one, null);
                return;
            }
            var least = 0;
            if (one.index() > 0) {
                var before = draft.at(stepOf(one, one.index() - 1));
                if (before == null) {
                    path(draft, one);
                    return;
                }
                least = Draft.placeOf(one, before.number() + 1);
            }
            var most = one.getRange().size();
            if (!one.last()) {
                var after = draft.at(stepOf(one, one.index() + 1));
                most = after == null ? most : Draft.placeOf(one, after.number());
            }
            if (least < most) {
                draft.put(one, one.getRange().get(least + random.nextInt(most - least)));
            }
        }

        /** The path of a case from one of its steps on, each step into a session that has room, more likely a soon one. */
        private void path(Draft draft, Appointment one) {
            var size = one.waiting().steps().size();
            var from = 0;
            // Behind a step without a place nothing can be placed.
            for (var to = random.nextInt(size); from < to && draft.at(stepOf(one, from)) != null; from++) {}
            takeOut(draft, one, from);
            var before = from == 0 ? null : draft.at(stepOf(one, from - 1));
            for (var index = from; index < size; index++) {
                var appointment = stepOf(one, index);
                var home = random.nextBoolean() ? appointment.home() : null;
                var slot = home != null && suits(draft, appointment, home, before)
                        ? home
                        : soon(draft, appointment, before);
                if (slot == null) {
                    return;
                }
                draft.put(appointment, slot);
                before = slot;
            }
        }

        private boolean suits(Draft draft, Appointment appointment, Slot slot, @Nullable Slot before) {
            return (before == null || Fit.inOrder(appointment.step(), slot, before))
                    && (careful ? draft.hasTime(appointment, slot) : draft.hasRoom(appointment, slot));
        }

        private @Nullable Slot soon(Draft draft, Appointment appointment, @Nullable Slot before) {
            var skip = random.nextInt(3) == 0 ? random.nextInt(8) : random.nextInt(2);
            var range = appointment.getRange();
            Slot found = null;
            for (var i = before == null ? 0 : Draft.placeOf(appointment, before.number() + 1);
                    i < range.size() && skip >= 0;
                    i++) {
                var slot = range.get(i);
                if (suits(draft, appointment, slot, before)) {
                    found = slot;
                    skip--;
                }
            }
            return found;
        }

        private void takeOut(Draft draft, Appointment one, int from) {
            for (var index = from; index < one.waiting().steps().size(); index++) {
                draft.put(stepOf(one, index), null);
            }
        }

        private void exchange(Draft draft, Appointment one) {
            var other = another(one);
            if (other != null) {
                draft.put(one, other.getSlot());
                draft.put(other, one.getSlot());
            }
        }

        /** A step of the same kind that has a place elsewhere. */
        private @Nullable Appointment another(Appointment one) {
            for (var i = 0; i < TRIES; i++) {
                var other = any();
                if (other != one
                        && other.step().kind() == one.step().kind()
                        && other.getSlot() != null
                        && other.getSlot() != one.getSlot()) {
                    return other;
                }
            }
            return null;
        }

        /** What two or three sessions of a kind hold, all of it out and one after the other into one of them again. */
        private void repack(Draft draft, Appointment one) {
            if (one.getSlot() == null) {
                return;
            }
            var range = one.getRange();
            var at = Draft.placeOf(one, one.getSlot().number());
            var from = Math.max(0, at - PACKED_WITHIN);
            var to = Math.min(range.size(), at + PACKED_WITHIN + 1);
            var sessions = new BitSet();
            sessions.set(one.getSlot().number());
            for (var i = 1 + random.nextInt(2); i > 0; i--) {
                sessions.set(range.get(from + random.nextInt(to - from)).number());
            }
            var out = new ArrayList<Appointment>();
            for (var each : appointments) {
                if (each.getSlot() != null && sessions.get(each.getSlot().number())) {
                    out.add(each);
                    draft.put(each, null);
                }
            }
            Collections.shuffle(out, Random.from(random));
            var into = new ArrayList<Slot>();
            for (var i = from; i < to; i++) {
                if (sessions.get(range.get(i).number())) {
                    into.add(range.get(i));
                }
            }
            var fromTheFront = random.nextBoolean();
            for (var each : out) {
                if (!fromTheFront) {
                    Collections.shuffle(into, Random.from(random));
                }
                for (var slot : into) {
                    if (draft.putWhereItGoes(each, slot)) {
                        break;
                    }
                }
                if (draft.at(each) == null) {
                    path(draft, each);
                }
            }
        }

        private void exchangePaths(Draft draft, Appointment one) {
            var other = another(one);
            if (other == null) {
                return;
            }
            for (var i = 0; i < one.waiting().steps().size(); i++) {
                var mine = stepOf(one, i);
                for (var j = 0; j < other.waiting().steps().size(); j++) {
                    var yours = stepOf(other, j);
                    if (mine.step().kind() == yours.step().kind()) {
                        draft.put(mine, yours.getSlot());
                        draft.put(yours, mine.getSlot());
                    }
                }
            }
        }

        private void intoThePlaceOfAnother(Draft draft, Appointment one) {
            var other = another(one);
            if (other != null) {
                draft.put(one, other.getSlot());
                leave(draft, other);
            }
        }

        /** Somewhere else, alone or with the rest of its path. */
        private void leave(Draft draft, Appointment other) {
            if (random.nextBoolean()) {
                shift(draft, other);
            } else {
                path(draft, other);
            }
        }

        /** The path of a case from one of its steps on, each into one of the first sessions, out of which others go until it fits. */
        private void intoWhateverSession(Draft draft, Appointment one) {
            var size = one.waiting().steps().size();
            var before = one.index() == 0 ? null : draft.at(stepOf(one, one.index() - 1));
            if (one.index() > 0 && before == null) {
                path(draft, one);
                return;
            }
            for (var index = one.index(); index < size; index++) {
                var appointment = stepOf(one, index);
                var range = appointment.getRange();
                var least = before == null ? 0 : Draft.placeOf(appointment, before.number() + 1);
                while (least < range.size()
                        && before != null
                        && !Fit.inOrder(appointment.step(), range.get(least), before)) {
                    least++;
                }
                if (least == range.size()) {
                    takeOut(draft, one, index);
                    return;
                }
                var most = random.nextBoolean() ? range.size() : Math.min(range.size(), least + 6);
                var slot = range.get(least + random.nextInt(most - least));
                draft.put(appointment, slot);
                makeRoom(draft, appointment, slot);
                before = slot;
            }
        }

        private void makeRoom(Draft draft, Appointment one, Slot slot) {
            if (draft.hasRoom(one, slot)) {
                return;
            }
            var others = new ArrayList<Appointment>();
            for (var other : appointments) {
                if (other.caseNumber() != one.caseNumber() && draft.at(other) == slot) {
                    others.add(other);
                }
            }
            while (!others.isEmpty() && !draft.hasRoom(one, slot)) {
                leave(draft, others.remove(random.nextInt(others.size())));
            }
        }

        /** Some cases whose ends are near each other, all out of the plan and one after the other in again. */
        private void anew(Draft draft) {
            var first = lastOf(any());
            var near = first.getSlot() == null ? first.getRange() : List.of(first.getSlot());
            if (near.isEmpty()) {
                return;
            }
            var number = near.get(random.nextInt(near.size())).number();
            var out = new ArrayList<Appointment>();
            out.add(first);
            var most = 2 + random.nextInt(MOST_ANEW - 1);
            for (var i = 0; i < TRIES_ANEW && out.size() < most; i++) {
                var drawn = appointments.get(random.nextInt(appointments.size()));
                var other = lastOf(drawn);
                if (drawn.getSlot() != null
                        && Math.abs(drawn.getSlot().number() - number) <= NEAR
                        && !out.contains(other)) {
                    out.add(other);
                }
            }
            out.forEach(one -> takeOut(draft, one, 0));
            if (random.nextBoolean()) {
                out.sort(Comparator.comparing(one -> one.waiting().target()));
            } else {
                Collections.shuffle(out, Random.from(random));
            }
            out.forEach(one -> path(draft, one));
        }

        private Appointment lastOf(Appointment one) {
            return stepOf(one, one.waiting().steps().size() - 1);
        }

        private void ring(Draft draft) {
            var first = any();
            var second = another(first);
            var third = second == null ? null : another(second);
            if (second != null && third != null && third != first) {
                draft.put(first, second.getSlot());
                draft.put(second, third.getSlot());
                draft.put(third, first.getSlot());
            }
        }

        /**
         * Back to where it should rather be, the session that is kept or of which the patient has been told, with the neighbours
         * where they must be and, if need be, one out.
         */
        private void toTheToldSession(Draft draft, Appointment drawn) {
            var one = drawn;
            for (var i = 0; i < TRIES && !one.away(); i++) {
                one = any();
            }
            var told = one.home();
            if (told == null) {
                path(draft, one);
                return;
            }
            draft.put(one, told);
            Slot after = told;
            for (var index = one.index() - 1; index >= 0; index--) {
                var earlier = stepOf(one, index);
                var at = draft.at(earlier);
                if (at == null || at.number() >= after.number()) {
                    var most = Draft.placeOf(earlier, after.number());
                    if (most == 0) {
                        return;
                    }
                    at = earlier.getRange().get(random.nextInt(most));
                    draft.put(earlier, at);
                }
                after = at;
            }
            var before = told;
            for (var index = one.index() + 1; index < one.waiting().steps().size(); index++) {
                var later = stepOf(one, index);
                var at = draft.at(later);
                if (at != null && !Fit.inOrder(later.step(), at, before)) {
                    at = soon(draft, later, before);
                    draft.put(later, at);
                }
                if (at == null) {
                    takeOut(draft, one, index);
                    break;
                }
                before = at;
            }
            if (!draft.hasRoom(one, told)) {
                for (var i = 0; i < TRIES; i++) {
                    var other = any();
                    if (other.getSlot() == told && other.caseNumber() != one.caseNumber()) {
                        leave(draft, other);
                        return;
                    }
                }
            }
        }
    }
}
