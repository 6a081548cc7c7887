package limbqueue.booking.solver;

import ai.timefold.solver.core.api.solver.phase.PhaseCommand;
import ai.timefold.solver.core.api.solver.phase.PhaseCommandContext;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import limbqueue.booking.Lateness;
import limbqueue.booking.PlanRule.Level;
import limbqueue.booking.Search;
import org.jspecify.annotations.Nullable;

/**
 * Anneals the order in which cases are booked one after the other, as a phase of the solver (R. Kolisch, S. Hartmann, Heuristic
 * algorithms for solving the resource-constrained project scheduling problem, in J. Weglarz, Project scheduling, 1999, 147-178; that
 * they call such an order an activity list is a value from memory). Each case goes into the first sessions that have time, the steps
 * before its end then as close to that as they can. One case earlier in the order shifts all behind it a little, where in a timetable
 * that is nearly full no single case can move. Whoever is in a session that ends too late stays: who that is, is settled before.
 */
final class BookingOrder implements PhaseCommand<Timetable> {

    /** By how many weighted days late more a change may be taken about one time in three, in the beginning and at the end. */
    private static final double FROM = 40;

    private static final double TO = 0.5;
    /** So many sessions are looked at in the time of a step of annealing a timetable. */
    private static final int LOOKS_OF_A_STEP = 300;
    /** Of so many changes one moves a case by more than a few places. */
    private static final int FAR = 3;

    private static final int NEAR = 12;
    /** Of so many changes one is about whether a case waits. */
    private static final int WAITING = 12;

    /** In weighted days late, so much a broken promise weighs, and a day by which it is broken. */
    private static final int BROKEN_PROMISE = 200;

    private static final int DAY_OF_A_BROKEN_PROMISE = 50;

    private final Search search;

    BookingOrder(Search search) {
        this.search = search;
    }

    @Override
    public void changeWorkingSolution(PhaseCommandContext<Timetable> context) {
        new Orders(context.getWorkingSolution(), new SplittableRandom(search.seed()))
                .anneal()
                .handTo(context);
    }

    /** An order, what it makes of the timetable, and the best that was there. */
    private final class Orders {
        private final List<Appointment> appointments;
        private final RandomGenerator random;
        private final Draft draft;
        private final BestDraft best;
        /** What sessions held of those who were booked up to a place in the order. */
        private final Load upTo;
        /** The first steps of the cases in their order. */
        private final Appointment[] order;

        private final Appointment[] orderBefore;
        /** By the number of the case whether it is booked as late as it is no later than it would be. */
        private final boolean[] waits;
        /** By the number of the case what it weighs. */
        private final long[] weights;

        private final long[] weightsBefore;
        private long weight;
        /** How many cases have been booked and sessions looked at. */
        private long looks;

        Orders(Timetable timetable, RandomGenerator random) {
            this.appointments = timetable.getAppointments();
            this.random = random;
            var load = Load.of(timetable, new Overruns());
            this.draft = new Draft(appointments, load, false);
            this.upTo = load.copy();
            this.best = new BestDraft(timetable);
            this.order = appointments.stream()
                    .filter(one -> one.index() == 0 && !overruns(one, load))
                    .sorted(Comparator.comparing(one -> one.waiting().target()))
                    .toArray(Appointment[]::new);
            this.orderBefore = new Appointment[order.length];
            var cases = appointments.getLast().caseNumber() + 1;
            this.waits = new boolean[cases];
            this.weights = new long[cases];
            this.weightsBefore = new long[cases];
            for (var one : order) {
                waits[one.caseNumber()] = one.level() != Level.LATENESS;
            }
        }

        private boolean overruns(Appointment first, Load load) {
            return pathOf(first).stream()
                    .anyMatch(one -> one.placed()
                            .filter(slot -> load.overrun(slot.number()) > 0)
                            .isPresent());
        }

        private List<Appointment> pathOf(Appointment first) {
            return appointments.subList(
                    first.getNumber(),
                    first.getNumber() + first.waiting().steps().size());
        }

        BestDraft anneal() {
            if (order.length < 2) {
                return best;
            }
            book(0, order.length - 1, Double.POSITIVE_INFINITY);
            commit();
            var begin = System.nanoTime();
            var done = done(begin);
            while (done < 1) {
                change(FROM * Math.pow(TO / FROM, done));
                done = done(begin);
            }
            return best;
        }

        private double done(long begin) {
            var bySteps = looks / ((double) search.steps() * LOOKS_OF_A_STEP);
            return search.atMost()
                    .map(most -> Math.max(bySteps, (System.nanoTime() - begin) / (double) most.toNanos()))
                    .orElse(bySteps);
        }

        private void change(double temperature) {
            var one = random.nextInt(order.length);
            var other = random.nextInt(FAR) == 0
                    ? random.nextInt(order.length)
                    : Math.min(order.length - 1, one + 1 + random.nextInt(NEAR));
            var from = Math.min(one, other);
            var to = Math.max(one, other);
            System.arraycopy(order, 0, orderBefore, 0, order.length);
            System.arraycopy(weights, 0, weightsBefore, 0, weights.length);
            var weightBefore = weight;
            var flips = random.nextInt(WAITING) == 0 || from == to;
            var flipped = order[from].caseNumber();
            if (flips) {
                waits[flipped] = !waits[flipped];
            } else {
                reorder(from, to);
            }
            if (book(from, flips ? from : to, weight - temperature * Math.log(1 - random.nextDouble()))) {
                commit();
            } else {
                draft.clear();
                System.arraycopy(orderBefore, 0, order, 0, order.length);
                System.arraycopy(weightsBefore, 0, weights, 0, weights.length);
                weight = weightBefore;
                waits[flipped] = waits[flipped] != flips;
            }
        }

        private void reorder(int from, int to) {
            var first = order[from];
            var last = order[to];
            switch (random.nextInt(4)) {
                case 0 -> {
                    System.arraycopy(order, from + 1, order, from, to - from);
                    order[to] = first;
                }
                case 1 -> {
                    System.arraycopy(order, from, order, from + 1, to - from);
                    order[from] = last;
                }
                default -> {
                    order[from] = last;
                    order[to] = first;
                }
            }
        }

        private void commit() {
            draft.weigh();
            best.follow(draft.commit(), draft);
        }

        /**
         * Books from this place in the order on, and says whether all together weighs no more than {@code most}. Where sessions hold as
         * much behind {@code to} as they did before, whoever comes behind stays: so end half of all tries.
         *
         * @param to behind this place the order is as before
         */
        private boolean book(int from, int to, double most) {
            for (var place = order.length - 1; place > to; place--) {
                takeOut(order[place]);
            }
            upTo.take(draft.load());
            var alone = true;
            for (var place = from; place <= to; place++) {
                takeOut(order[place]);
                alone &= order[place].ofOtherCases().length == 0;
            }
            for (var place = from; place < order.length; place++) {
                if (place == to + 1 && alone && draft.load().sameAs(upTo)) {
                    putBack(place);
                    return weight <= most;
                }
                var first = order[place];
                book(first);
                var weighs = 0L;
                for (var one : pathOf(first)) {
                    weighs += weight(one, draft.at(one));
                }
                weights[first.caseNumber()] = weighs;
                weight += weighs;
                if (weight > most) {
                    return false;
                }
            }
            return true;
        }

        private void takeOut(Appointment first) {
            weight -= weights[first.caseNumber()];
            for (var one : pathOf(first)) {
                if (draft.at(one) != null) {
                    draft.put(one, null);
                }
            }
        }

        /** Those from this place in the order on where they were, since nothing has changed for them. */
        private void putBack(int from) {
            for (var place = from; place < order.length; place++) {
                weight += weights[order[place].caseNumber()];
                for (var one : pathOf(order[place])) {
                    if (draft.now(one) != null) {
                        draft.put(one, draft.now(one));
                    }
                }
            }
        }

        private void book(Appointment first) {
            // Also where there is no session at all that could be looked at: else this would never end.
            looks++;
            var path = pathOf(first);
            Slot before = null;
            for (var one : path) {
                var slot = soonest(one, before);
                if (slot == null) {
                    return;
                }
                draft.put(one, slot);
                before = slot;
            }
            var last = path.getLast();
            if (waits[first.caseNumber()]) {
                later(last, last.range().endOf(last.lastDayAsLate(before)));
            }
            for (var index = path.size() - 2; index >= 0; index--) {
                later(path.get(index), path.get(index).range().size());
            }
            if (!draft.resultsCount(last)) {
                draft.put(last, null);
            }
        }

        private @Nullable Slot soonest(Appointment one, @Nullable Slot before) {
            var range = one.range();
            for (var place = one.firstAfter(before); place < range.size(); place++) {
                if (takes(one, range.get(place))) {
                    return range.get(place);
                }
            }
            return null;
        }

        /** Puts {@code one} into the last session before this place in its range that takes it, if that is later than now. */
        private void later(Appointment one, int end) {
            var now = draft.at(one);
            if (now == null) {
                return;
            }
            var range = one.range();
            for (var place = Math.min(end, draft.endOfReach(one)) - 1; place > range.placeOf(now.number()); place--) {
                if (draft.reaches(one, range.get(place)) && takes(one, range.get(place))) {
                    draft.put(one, range.get(place));
                    return;
                }
            }
        }

        private boolean takes(Appointment one, Slot slot) {
            looks++;
            return draft.hasTime(one, slot) && draft.apart(one, slot);
        }

        private static long weight(Appointment one, @Nullable Slot at) {
            var points = one.latePoints(at);
            return one.level() == Level.LATENESS
                    ? points
                    : points / Lateness.BROKEN_PROMISE * BROKEN_PROMISE
                            + points % Lateness.BROKEN_PROMISE * DAY_OF_A_BROKEN_PROMISE;
        }
    }
}
