package limbqueue.booking.solver;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/**
 * Changes to a timetable, drawn at random, that know of paths: one step between its neighbours, a case's whole path, two cases that
 * exchange places, one into the place of another that goes elsewhere, three in a ring, one to the appointment its patient knows of, one
 * into a session out of which others go until it fits, a late case earlier with whoever is in its way elsewhere, some cases planned anew
 * together, a few sessions packed anew. Those that would break a rule which cannot be broken are not offered, and seldom those that
 * would break a promise.
 */
final class DrawnChanges {

    /** How often something possible is looked for before a case is taken out of the plan, which always is. */
    private static final int TRIES = 10;
    /** Of so many changes one may also worsen a promise, the time at which a session ends or the days late. */
    private static final int CAREFUL = 30;
    /** How many cases at most are planned anew at once, how often they are looked for, and within how many sessions. */
    private static final int MOST_ANEW = 5;

    private static final int TRIES_ANEW = 40;
    private static final int NEAR = 24;
    /** How far apart the sessions are that are packed anew, counted among those that can take a case. */
    private static final int PACKED_WITHIN = 4;
    /** How far apart those are who exchange their places, counted in the same way. */
    private static final int EXCHANGED_WITHIN = 20;
    /** By how many sessions at most a late case comes earlier, among how many its steps before that are drawn. */
    private static final int SOONER_BY = 30;

    private static final int STEPS_WITHIN = 8;
    /** How many of those who have to go elsewhere may in turn send others elsewhere. */
    private static final int LONGEST_CHAIN = 2;

    private static final int SETTLED = -1;

    private final List<Appointment> appointments;
    private final Draft draft;
    private final RandomGenerator random;
    /**
     * Where a plan is kept who is not where that has them, or has no place beside it; where none is, who has no place, comes late
     * or elsewhere than told.
     */
    private final List<Appointment> unsettled = new ArrayList<>();
    /** The place of each among them, by number, -1 for none. */
    private final int[] unsettledPlace;
    /** Whether a plan is kept. */
    private final boolean keeping;
    /** Whether what is drawn may lose nothing that counts for most. */
    private boolean careful;

    /** @param load of {@code appointments} as they are, which is changed by {@link #commit} */
    DrawnChanges(List<Appointment> appointments, Load load, RandomGenerator random) {
        this.appointments = appointments;
        this.random = random;
        // Plain loops, since this is asked after every change that is taken.
        var kept = false;
        for (var one : appointments) {
            kept |= one.kept().isPresent();
        }
        this.keeping = kept;
        this.draft = new Draft(appointments, load, keeping);
        this.unsettledPlace = new int[appointments.size()];
        Arrays.fill(unsettledPlace, SETTLED);
        for (var one : appointments) {
            settle(one);
        }
    }

    /** Keeps in mind whether {@code one} is settled where it is. */
    private void settle(Appointment one) {
        var at = draft.now(one);
        var settled = at != null && !(keeping ? one.leavesKept(at) : one.movesTold(at) || draft.late(one) > 0);
        var place = unsettledPlace[one.getNumber()];
        if (settled && place != SETTLED) {
            var last = unsettled.removeLast();
            if (last != one) {
                unsettled.set(place, last);
                unsettledPlace[last.getNumber()] = place;
            }
            unsettledPlace[one.getNumber()] = SETTLED;
        } else if (!settled && place == SETTLED) {
            unsettledPlace[one.getNumber()] = unsettled.size();
            unsettled.add(one);
        }
    }

    /** Draws changes that are possible and change something, or takes a case out of the plan, which always is. */
    Draft draw() {
        careful = random.nextInt(CAREFUL) > 0;
        for (var i = 0; i < TRIES; i++) {
            draft.clear();
            change();
            if (!draft.changesNothing() && draft.possible()) {
                draft.weigh();
                if (!(careful && draft.loses())) {
                    return draft;
                }
            }
        }
        draft.clear();
        draft.put(lastOf(any()), null);
        draft.weigh();
        return draft;
    }

    /** Makes what was drawn, so that what is drawn next begins there, and says who has been moved. */
    List<Appointment> commit() {
        var moved = draft.commit();
        moved.forEach(this::settle);
        return moved;
    }

    /** Drafts some change, which may turn out to be none. */
    private void change() {
        if (keeping) {
            changeWhereKept();
            return;
        }
        if (!unsettled.isEmpty() && random.nextInt(8) > 2) {
            if (random.nextInt(5) == 0) {
                intoWhateverSession(any());
            } else {
                earlier(lastOf(any()));
            }
            return;
        }
        switch (random.nextInt(24)) {
            case 0 -> shift(any());
            case 1, 2 -> path(any());
            case 3, 4, 5, 6 -> exchange(any());
            case 7 -> exchangePaths(any());
            case 8, 9, 10, 11, 12, 13 -> intoThePlaceOfAnother(any());
            case 14, 15, 16 -> ring();
            case 17 -> toTheToldSession(any());
            case 18, 19 -> anew();
            default -> repack(any());
        }
    }

    /** Where a plan is kept, as much as can be stays as it is: nobody is planned anew. */
    private void changeWhereKept() {
        if (!unsettled.isEmpty() && random.nextInt(4) == 0) {
            intoWhateverSession(any());
            return;
        }
        if (random.nextInt(4) == 0) {
            toTheToldSession(any());
            return;
        }
        switch (random.nextInt(12)) {
            case 0, 1, 2 -> shift(any());
            case 3, 4 -> path(any());
            case 5, 6 -> exchange(any());
            case 7 -> exchangePaths(any());
            case 8, 9 -> intoThePlaceOfAnother(any());
            case 10 -> ring();
            default -> toTheToldSession(any());
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
    private void shift(Appointment one) {
        if (one.last() && random.nextInt(20) == 0) {
            draft.put(one, null);
            return;
        }
        var least = 0;
        if (one.index() > 0) {
            var before = draft.at(stepOf(one, one.index() - 1));
            if (before == null) {
                path(one);
                return;
            }
            least = one.range().placeOf(before.number() + 1);
        }
        var most = one.range().size();
        if (!one.last()) {
            var after = draft.at(stepOf(one, one.index() + 1));
            most = after == null ? most : one.range().placeOf(after.number());
        }
        if (least < most) {
            draft.put(one, one.range().get(least + random.nextInt(most - least)));
        }
    }

    /** The path of a case from one of its steps on, each step into a session that has room, more likely a soon one. */
    private void path(Appointment one) {
        var size = one.waiting().steps().size();
        var from = 0;
        // Behind a step without a place nothing can be placed.
        for (var to = random.nextInt(size); from < to && draft.at(stepOf(one, from)) != null; from++) {}
        takeOut(one, from);
        var before = from == 0 ? null : draft.at(stepOf(one, from - 1));
        for (var index = from; index < size; index++) {
            var appointment = stepOf(one, index);
            var home = random.nextBoolean() ? appointment.home() : null;
            var slot = home != null && suits(appointment, home, before) ? home : soon(appointment, before);
            if (slot == null) {
                return;
            }
            draft.put(appointment, slot);
            before = slot;
        }
    }

    private boolean suits(Appointment appointment, Slot slot, @Nullable Slot before) {
        return (before == null || Fit.inOrder(appointment.step(), slot, before)) && takesBesides(appointment, slot);
    }

    private boolean takesBesides(Appointment appointment, Slot slot) {
        return draft.apart(appointment, slot)
                && (careful ? draft.hasTime(appointment, slot) : draft.hasRoom(appointment, slot));
    }

    private @Nullable Slot soon(Appointment appointment, @Nullable Slot before) {
        var skip = random.nextInt(3) == 0 ? random.nextInt(8) : random.nextInt(2);
        var range = appointment.range();
        Slot found = null;
        for (var i = appointment.firstAfter(before); i < range.size() && skip >= 0; i++) {
            var slot = range.get(i);
            if (takesBesides(appointment, slot)) {
                found = slot;
                skip--;
            }
        }
        return found;
    }

    private void takeOut(Appointment one, int from) {
        for (var index = from; index < one.waiting().steps().size(); index++) {
            draft.put(stepOf(one, index), null);
        }
    }

    private void exchange(Appointment one) {
        var other = another(one);
        if (other != null) {
            draft.put(one, draft.now(other));
            draft.put(other, draft.now(one));
        }
    }

    /** A step of the same kind that has a place elsewhere, more likely near; before it, if it is late. */
    private @Nullable Appointment another(Appointment one) {
        var near = random.nextInt(7) > 0 ? near(one) : null;
        if (near != null) {
            return near;
        }
        for (var i = 0; i < TRIES; i++) {
            var other = any();
            if (other != one
                    && other.step().kind() == one.step().kind()
                    && draft.now(other) != null
                    && draft.now(other) != draft.now(one)) {
                return other;
            }
        }
        return null;
    }

    private @Nullable Appointment near(Appointment one) {
        var at = draft.now(one);
        if (at == null) {
            return null;
        }
        var range = one.range();
        var place = range.placeOf(at.number());
        var from = Math.max(0, place - EXCHANGED_WITHIN);
        var to = draft.late(one) > 0 ? place : Math.min(range.size(), place + EXCHANGED_WITHIN + 1);
        if (from >= to) {
            return null;
        }
        var there = range.get(from + random.nextInt(to - from));
        var others = there == at ? List.<Appointment>of() : draft.in(there.number());
        return others.isEmpty() ? null : others.get(random.nextInt(others.size()));
    }

    /**
     * What some sessions of a kind hold, all of it out and one after the other into one of them again, and whoever has no place
     * behind them: sessions near each other, or any, since together they may have the time that each alone lacks.
     */
    private void repack(Appointment one) {
        var range = one.range();
        if (range.isEmpty()) {
            return;
        }
        var at = draft.now(one);
        var from = 0;
        var to = range.size();
        var sessions = new BitSet();
        if (at != null) {
            sessions.set(at.number());
            if (random.nextBoolean()) {
                var place = range.placeOf(at.number());
                from = Math.max(0, place - PACKED_WITHIN);
                to = Math.min(range.size(), place + PACKED_WITHIN + 1);
            }
        }
        var more = (at == null ? 2 : 1) + random.nextInt(2);
        for (var i = 0; i < more; i++) {
            sessions.set(range.get(from + random.nextInt(to - from)).number());
        }
        var out = new ArrayList<Appointment>();
        for (var number = sessions.nextSetBit(0); number >= 0; number = sessions.nextSetBit(number + 1)) {
            out.addAll(draft.in(number));
        }
        out.forEach(each -> draft.put(each, null));
        Collections.shuffle(out, Random.from(random));
        if (random.nextBoolean()) {
            out.sort(Comparator.comparing(Appointment::expected).reversed());
        }
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
                if (draft.putWhereItGoes(each, slot, careful)) {
                    break;
                }
            }
            if (draft.at(each) == null) {
                path(each);
            }
        }
        if (at == null) {
            path(one);
        }
    }

    /**
     * A late case into an earlier session, with the steps before it before that one; then out of each session that is too full
     * whoever can go elsewhere without being later than now, perhaps because others go from there in the same way.
     *
     * @param one the last step of its case
     */
    private void earlier(Appointment one) {
        var now = draft.now(one);
        var range = one.range();
        var most = now == null ? range.size() : range.placeOf(now.number());
        if (draft.late(one) == 0 || most == 0) {
            intoWhateverSession(one);
            return;
        }
        var least = now == null ? 0 : Math.max(0, most - SOONER_BY);
        draft.put(one, range.get(least + random.nextInt(most - least)));
        var placed = new ArrayList<>(List.of(one));
        for (var index = one.index(); index > 0; index--) {
            var step = stepOf(one, index - 1);
            if (draft.reaches(step, draft.at(step))) {
                break;
            }
            var end = draft.endOfReach(step);
            if (end == 0) {
                return;
            }
            draft.put(step, step.range().get(end - 1 - random.nextInt(Math.min(end, STEPS_WITHIN))));
            placed.add(step);
        }
        var settled = new BitSet();
        placed.forEach(each -> settled.set(each.getNumber()));
        for (var each : placed) {
            if (!makeTime(each, settled, LONGEST_CHAIN)) {
                return;
            }
        }
    }

    /**
     * Out of the session of {@code one} whoever can go elsewhere, until it has time for those who are left.
     *
     * @param settled who has been moved in this way and stays, by number
     * @param chain how many of those who go may in turn send others elsewhere
     * @return whether it has time now
     */
    private boolean makeTime(Appointment one, BitSet settled, int chain) {
        var slot = draft.at(one);
        while (slot != null && !takesBesides(one, slot)) {
            var others = draft.in(slot.number());
            others.removeIf(other -> settled.get(other.getNumber()));
            Collections.shuffle(others, Random.from(random));
            if (!goes(others, settled) && !sends(others, settled, chain)) {
                return false;
            }
        }
        return true;
    }

    /** Whether one of {@code others} goes into another session that has time. */
    private boolean goes(List<Appointment> others, BitSet settled) {
        for (var other : others) {
            var free = elsewhere(other, true);
            if (free != null) {
                draft.put(other, free);
                settled.set(other.getNumber());
                return true;
            }
        }
        return false;
    }

    /** Whether the first of {@code others} goes into another session in which others make time for it. */
    private boolean sends(List<Appointment> others, BitSet settled, int chain) {
        if (others.isEmpty() || chain == 0) {
            return false;
        }
        var other = others.getFirst();
        var into = elsewhere(other, false);
        if (into == null) {
            return false;
        }
        draft.put(other, into);
        settled.set(other.getNumber());
        return makeTime(other, settled, chain - 1);
    }

    /** Another session for {@code one} between its neighbours, in which it is not later than it is now. */
    private @Nullable Slot elsewhere(Appointment one, boolean withTime) {
        var range = one.range();
        var least = one.index() == 0 ? 0 : one.firstAfter(draft.at(stepOf(one, one.index() - 1)));
        var asLate = range.endOf(one.lastDayAsLate(draft.now(one)));
        var places = Math.min(draft.endOfReach(one), asLate) - least;
        var from = places > 0 ? random.nextInt(places) : 0;
        for (var i = 0; i < places; i++) {
            var slot = range.get(least + (from + i) % places);
            if (slot != draft.at(one) && (!withTime || takesBesides(one, slot))) {
                return slot;
            }
        }
        return null;
    }

    private void exchangePaths(Appointment one) {
        var other = another(one);
        if (other == null) {
            return;
        }
        for (var i = 0; i < one.waiting().steps().size(); i++) {
            var mine = stepOf(one, i);
            for (var j = 0; j < other.waiting().steps().size(); j++) {
                var yours = stepOf(other, j);
                if (mine.step().kind() == yours.step().kind()) {
                    draft.put(mine, draft.now(yours));
                    draft.put(yours, draft.now(mine));
                }
            }
        }
    }

    private void intoThePlaceOfAnother(Appointment one) {
        var other = another(one);
        if (other != null) {
            draft.put(one, draft.now(other));
            leave(other);
        }
    }

    /** Somewhere else, alone or with the rest of its path. */
    private void leave(Appointment other) {
        if (random.nextBoolean()) {
            shift(other);
        } else {
            path(other);
        }
    }

    /** The path of a case from one of its steps on, each into one of the first sessions, out of which others go until it fits. */
    private void intoWhateverSession(Appointment one) {
        var size = one.waiting().steps().size();
        var before = one.index() == 0 ? null : draft.at(stepOf(one, one.index() - 1));
        if (one.index() > 0 && before == null) {
            path(one);
            return;
        }
        for (var index = one.index(); index < size; index++) {
            var appointment = stepOf(one, index);
            var range = appointment.range();
            var least = appointment.firstAfter(before);
            if (least == range.size()) {
                takeOut(one, index);
                return;
            }
            var most = random.nextBoolean() ? range.size() : Math.min(range.size(), least + 6);
            var slot = range.get(least + random.nextInt(most - least));
            draft.put(appointment, slot);
            makeRoom(appointment, slot);
            before = slot;
        }
    }

    private void makeRoom(Appointment one, Slot slot) {
        if (draft.hasRoom(one, slot)) {
            return;
        }
        var others = draft.in(slot.number());
        others.removeIf(other -> other.caseNumber() == one.caseNumber());
        while (!others.isEmpty() && !draft.hasRoom(one, slot)) {
            leave(others.remove(random.nextInt(others.size())));
        }
    }

    /** Some cases whose ends are near each other, all out of the plan and one after the other in again. */
    private void anew() {
        var first = lastOf(any());
        var near = draft.now(first) == null ? first.range().slots() : List.of(draft.now(first));
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
            var at = draft.now(drawn);
            if (at != null && Math.abs(at.number() - number) <= NEAR && !out.contains(other)) {
                out.add(other);
            }
        }
        out.forEach(one -> takeOut(one, 0));
        if (random.nextBoolean()) {
            out.sort(Comparator.comparing(one -> one.waiting().target()));
        } else {
            Collections.shuffle(out, Random.from(random));
        }
        out.forEach(one -> path(one));
    }

    private Appointment lastOf(Appointment one) {
        return stepOf(one, one.waiting().steps().size() - 1);
    }

    private void ring() {
        var first = any();
        var second = another(first);
        var third = second == null ? null : another(second);
        if (second != null && third != null && third != first) {
            draft.put(first, draft.now(second));
            draft.put(second, draft.now(third));
            draft.put(third, draft.now(first));
        }
    }

    /**
     * Back to where it should rather be, the session that is kept or of which the patient has been told, with the neighbours
     * where they must be and, if need be, one out.
     */
    private void toTheToldSession(Appointment drawn) {
        var one = drawn;
        for (var i = 0; i < TRIES && !one.away(draft.now(one)); i++) {
            one = any();
        }
        var told = one.home();
        if (told == null) {
            path(one);
            return;
        }
        draft.put(one, told);
        Slot after = told;
        for (var index = one.index() - 1; index >= 0; index--) {
            var earlier = stepOf(one, index);
            var at = draft.at(earlier);
            if (at == null || at.number() >= after.number()) {
                var most = earlier.range().placeOf(after.number());
                if (most == 0) {
                    return;
                }
                at = earlier.range().get(random.nextInt(most));
                draft.put(earlier, at);
            }
            after = at;
        }
        var before = told;
        for (var index = one.index() + 1; index < one.waiting().steps().size(); index++) {
            var later = stepOf(one, index);
            var at = draft.at(later);
            if (at != null && !Fit.inOrder(later.step(), at, before)) {
                at = soon(later, before);
                draft.put(later, at);
            }
            if (at == null) {
                takeOut(one, index);
                break;
            }
            before = at;
        }
        if (!draft.hasRoom(one, told)) {
            for (var i = 0; i < TRIES; i++) {
                var other = any();
                if (draft.now(other) == told && other.caseNumber() != one.caseNumber()) {
                    leave(other);
                    return;
                }
            }
        }
    }
}
