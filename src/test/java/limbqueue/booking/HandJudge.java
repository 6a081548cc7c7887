package limbqueue.booking;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import limbqueue.triage.Tier;

/**
 * Judges a plan as a person with pencil and paper would, from the rules in words; it shares no code with the planner. A plan is
 * given as the index of the session of each step of each case, {@value #NONE} for none.
 */
public final class HandJudge {

    public static final int NONE = -1;

    private static final long BROKEN = 10_000_000;
    /** From a table of the normal distribution. */
    private static final double Z90 = 1.2815515655446004;

    private final Waiting waiting;
    private final List<Session> sessions;
    private final List<WaitingCase> cases;

    public HandJudge(Waiting waiting) {
        this.waiting = waiting;
        this.sessions = waiting.sessions();
        this.cases = waiting.cases();
    }

    /** The indices of the sessions in which {@code plan} puts its cases. */
    public static int[][] placesOf(Waiting waiting, Plan plan) {
        var places = new int[waiting.cases().size()][];
        for (var c = 0; c < places.length; c++) {
            var reference = waiting.cases().get(c).reference();
            var printed = plan.cases().stream()
                    .filter(one -> one.reference().equals(reference))
                    .findFirst()
                    .orElseThrow();
            places[c] = printed.steps().stream()
                    .mapToInt(step -> step.session()
                            .map(id -> waiting.sessions().stream()
                                    .map(Session::id)
                                    .toList()
                                    .indexOf(id))
                            .orElse(NONE))
                    .toArray();
        }
        return places;
    }

    /** Everything in the plan that cannot be. */
    public List<String> impossible(int[][] places) {
        var found = new ArrayList<String>();
        for (var c = 0; c < places.length; c++) {
            var of = cases.get(c);
            for (var s = 0; s < places[c].length; s++) {
                if (places[c][s] != NONE) {
                    impossible(of, places[c], s).forEach(text -> found.add(of.reference() + ": " + text));
                }
            }
        }
        for (var c = 0; c < places.length; c++) {
            for (var d = c + 1; d < places.length; d++) {
                if (cases.get(c).patient().equals(cases.get(d).patient())) {
                    for (var one : places[c]) {
                        for (var other : places[d]) {
                            if (one != NONE && other != NONE && one != other && sameTime(one, other)) {
                                found.add("one patient in two sessions at a time: "
                                        + cases.get(c).patient());
                            }
                        }
                    }
                }
            }
        }
        for (var load : loads(places).entrySet()) {
            if (load.getValue()[0] > sessions.get(load.getKey()).minutes()) {
                found.add("too many minutes in " + sessions.get(load.getKey()).id());
            }
        }
        for (var at = 0; at < sessions.size(); at++) {
            if (takesHeldTime(places, at)) {
                found.add("held minutes are used in " + sessions.get(at).id());
            }
        }
        return found;
    }

    /** Whether somebody who is neither urgent nor was told of the session is in it beyond what is not held. */
    private boolean takesHeldTime(int[][] places, int at) {
        var session = sessions.get(at);
        if (ChronoUnit.DAYS.between(waiting.asOf(), session.date())
                < session.held().releaseDays()) {
            return false;
        }
        var ordinary = 0.0;
        var untold = false;
        for (var c = 0; c < places.length; c++) {
            for (var s = 0; s < places[c].length; s++) {
                if (places[c][s] == at && level(cases.get(c).tier()) > 0) {
                    var step = cases.get(c).steps().get(s);
                    ordinary += moments(step.minutes())[0];
                    untold |= !step.told().equals(Optional.of(session.id()));
                }
            }
        }
        return untold && ordinary > session.minutes() - session.held().minutes();
    }

    private boolean sameTime(int one, int other) {
        var a = sessions.get(one);
        var b = sessions.get(other);
        return a.date().equals(b.date())
                && a.start().toLocalTime().compareTo(b.end().toLocalTime()) < 0
                && b.start().toLocalTime().compareTo(a.end().toLocalTime()) < 0;
    }

    /** What is impossible of step {@code s} as far as its own case is concerned. */
    public List<String> impossible(WaitingCase of, int[] path, int s) {
        var found = new ArrayList<String>();
        var step = of.steps().get(s);
        var session = sessions.get(path[s]);
        var kind = switch (step.kind()) {
            case PRESSURES_AND_DUPLEX -> SessionKind.VASCULAR_LABORATORY;
            case CTA -> SessionKind.CT;
            case CLINIC -> SessionKind.CLINIC;
            case PROCEDURE -> SessionKind.PROCEDURE_ROOM;
        };
        if (session.kind() != kind) {
            found.add("wrong kind of session");
        }
        if (session.closed()) {
            found.add("closed");
        }
        if (session.date().compareTo(waiting.asOf()) < 0) {
            found.add("past");
        }
        for (var need : step.needs()) {
            if (!session.capabilities().contains(need)) {
                found.add("lacks " + need);
            }
        }
        for (var bar : step.barred()) {
            if (bar.from().compareTo(session.end()) < 0 && bar.until().compareTo(session.start()) > 0) {
                found.add("barred: " + bar.why());
            }
        }
        if (s > 0) {
            if (path[s - 1] == NONE) {
                found.add("the step before has no place");
            } else {
                var before = sessions.get(path[s - 1]);
                if (session.start().compareTo(before.end()) < 0
                        || ChronoUnit.DAYS.between(before.date(), session.date()) < step.daysAfterPrevious()) {
                    found.add("too soon after the step before");
                }
            }
        }
        if (s == path.length - 1) {
            for (var e = 0; e < s; e++) {
                var counts = of.steps().get(e).countsDays();
                if (path[e] != NONE
                        && counts.isPresent()
                        && ChronoUnit.DAYS.between(sessions.get(path[e]).date(), session.date()) > counts.get()) {
                    found.add("an earlier result does not count any more");
                }
            }
        }
        return found;
    }

    /** Minutes and variance of each session that holds anybody. */
    private Map<Integer, double[]> loads(int[][] places) {
        var loads = new HashMap<Integer, double[]>();
        for (var c = 0; c < places.length; c++) {
            for (var s = 0; s < places[c].length; s++) {
                if (places[c][s] != NONE) {
                    var time = moments(cases.get(c).steps().get(s).minutes());
                    var load = loads.computeIfAbsent(places[c][s], _ -> new double[2]);
                    load[0] += time[0];
                    load[1] += time[1];
                }
            }
        }
        return loads;
    }

    /** Mean and variance of log-normal minutes, in whole ones. */
    private static double[] moments(StepMinutes minutes) {
        var sigma = Math.log(minutes.ninety() / minutes.median()) / Z90;
        var mean = minutes.median() * Math.exp(0.5 * sigma * sigma);
        return new double[] {Math.max(1, Math.rint(mean)), Math.rint((Math.exp(sigma * sigma) - 1) * mean * mean)};
    }

    /** The points of each level after the first, which counts what is impossible; 0 is best. */
    public long[] levels(int[][] places) {
        var points = new long[6];
        for (var c = 0; c < places.length; c++) {
            var of = cases.get(c);
            var last = places[c][places[c].length - 1];
            var days = last == NONE
                    ? 28 + late(of.target(), waiting.lastDay())
                    : late(of.target(), sessions.get(last).date());
            for (var s = 0; s < places[c].length - 1; s++) {
                points[level(of.tier())] += places[c][s] == NONE ? 7L * weight(of.tier()) : 0;
            }
            points[level(of.tier())] += days * weight(of.tier());
            if (days > 0 && level(of.tier()) < 2) {
                points[level(of.tier())] += BROKEN;
            }
            for (var s = 0; s < places[c].length; s++) {
                var step = of.steps().get(s);
                var at = places[c][s];
                if (step.told().isPresent()
                        && (at == NONE
                                || !sessions.get(at).id().equals(step.told().get()))) {
                    points[4]++;
                }
                if (at != NONE) {
                    points[5] += Math.round(moments(step.minutes())[0])
                            * ChronoUnit.DAYS.between(
                                    waiting.asOf(), sessions.get(at).date());
                }
            }
        }
        for (var load : loads(places).entrySet()) {
            var mean = load.getValue()[0];
            var spread = Math.sqrt(Math.log(1 + load.getValue()[1] / (mean * mean)));
            var ninety = mean * Math.exp(Z90 * spread - 0.5 * spread * spread);
            points[2] += Math.max(
                    0, (long) Math.ceil(ninety - sessions.get(load.getKey()).minutes() - 1e-6));
        }
        return points;
    }

    /**
     * The points of lateness of one step of a case.
     *
     * @param on empty without a place
     */
    long late(int c, int s, Optional<LocalDate> on) {
        var of = cases.get(c);
        if (s < of.steps().size() - 1) {
            return on.isEmpty() ? 7L * weight(of.tier()) : 0;
        }
        var days = on.map(day -> late(of.target(), day)).orElse(28 + late(of.target(), waiting.lastDay()));
        return days * weight(of.tier()) + (days > 0 && level(of.tier()) < 2 ? BROKEN : 0);
    }

    private static long late(LocalDate target, LocalDate on) {
        return Math.max(0, ChronoUnit.DAYS.between(target, on));
    }

    static int level(Tier tier) {
        return switch (tier) {
            case SAME_DAY, WITHIN_5_DAYS -> 0;
            case WITHIN_14_DAYS -> 1;
            default -> 3;
        };
    }

    private static long weight(Tier tier) {
        return tier == Tier.WITHIN_6_WEEKS ? 3 : 1;
    }

    /** The points of the best of all plans, found by trying every one. */
    long[] best() {
        return best(this::levels);
    }

    /** The least of what {@code judged} says of all plans that can be, compared from the front, found by trying every one. */
    long[] best(Function<int[][], long[]> judged) {
        var paths = new ArrayList<List<int[]>>();
        for (var of : cases) {
            var ofCase = new ArrayList<int[]>();
            paths(of, new int[of.steps().size()], 0, ofCase);
            paths.add(ofCase);
        }
        var best = new ArrayList<long[]>();
        every(paths, new int[cases.size()][], 0, judged, best);
        return best.getLast();
    }

    private void paths(WaitingCase of, int[] path, int s, List<int[]> found) {
        if (s == path.length) {
            found.add(path.clone());
            return;
        }
        path[s] = NONE;
        paths(of, path, s + 1, found);
        for (var at = 0; at < sessions.size(); at++) {
            path[s] = at;
            if (impossible(of, path, s).isEmpty()) {
                paths(of, path, s + 1, found);
            }
        }
    }

    private void every(
            List<List<int[]>> paths, int[][] places, int c, Function<int[][], long[]> judged, List<long[]> best) {
        if (c == places.length) {
            if (impossible(places).isEmpty()) {
                var points = judged.apply(places);
                if (best.isEmpty() || Arrays.compare(points, best.getLast()) < 0) {
                    best.add(points);
                }
            }
            return;
        }
        for (var path : paths.get(c)) {
            places[c] = path;
            every(paths, places, c + 1, judged, best);
        }
    }
}
