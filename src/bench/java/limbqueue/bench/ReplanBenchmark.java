package limbqueue.bench;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import limbqueue.booking.GeneratedPractice;
import limbqueue.booking.Disruption;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.booking.KeptPlaces;
import limbqueue.booking.Planner;
import limbqueue.booking.Replan;
import limbqueue.booking.Replanner;
import limbqueue.booking.Search;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.booking.Step;
import limbqueue.booking.StepKind;
import limbqueue.booking.Waiting;
import limbqueue.booking.WaitingCase;

/** How long it takes to plan anew, with 300 open cases over 12 weeks, beside the full plan in the same run; and how many are moved. */
final class ReplanBenchmark {

    private static final int CASES = 300;
    private static final double GOAL_SECONDS = 5;
    private static final Search FULL = Search.of(1, 200_000);

    private ReplanBenchmark() {}

    static void run() {
        for (var seed = 1; seed <= 2; seed++) {
            var untold = withToday(GeneratedPractice.of(seed, CASES));
            var begin = System.nanoTime();
            var kept = KeptPlaces.of(Planner.plan(untold, FULL));
            var full = seconds(begin);
            System.out.printf(Locale.ROOT, "seed %d: the full plan of %d cases took %.1f s%n", seed, CASES, full);
            var waiting = told(untold, kept, seed);
            for (var disruption : disruptions(waiting, kept)) {
                begin = System.nanoTime();
                var replan = Replanner.replan(waiting, kept, disruption, Replanner.USUAL);
                var took = seconds(begin);
                print(seed, disruption, replan, took, full);
            }
        }
    }

    private static void print(int seed, Disruption disruption, Replan replan, double took, double full) {
        System.out.printf(
                Locale.ROOT,
                "seed %d, %-14s %.1f s, %.2f times the full plan (goal at most %.0f s: %s); %s%n",
                seed,
                disruption.getClass().getSimpleName(),
                took,
                took / full,
                GOAL_SECONDS,
                took <= GOAL_SECONDS ? "met" : "NOT met",
                replan.levels().stream()
                        .map(level -> level.level() + " " + level.points())
                        .toList());
        for (var cause : Replan.Cause.values()) {
            var of = replan.moves().stream().filter(move -> move.cause() == cause).toList();
            if (!of.isEmpty()) {
                System.out.printf(
                        Locale.ROOT,
                        "    %-14s %d, told %d, without a place %d%n",
                        cause,
                        of.size(),
                        of.stream().filter(Replan.Moved::told).count(),
                        of.stream().filter(move -> move.to().isEmpty()).count());
            }
        }
    }

    /** Sessions of the procedure room begin a day after the day of planning; an emergency needs one of that day. */
    private static Waiting withToday(Waiting waiting) {
        var sessions = new ArrayList<>(waiting.sessions());
        var start = waiting.asOf().atTime(8, 0);
        sessions.add(new Session(
                "TODAY",
                SessionKind.PROCEDURE_ROOM,
                start,
                start.plusMinutes(480),
                480,
                "TODAY",
                "TODAY",
                Set.of(),
                false));
        var cases = new ArrayList<WaitingCase>();
        for (var one : waiting.cases()) {
            var number = Integer.parseInt(one.reference().substring(1));
            cases.add(with(
                    one,
                    number % 60 == 0 ? List.of(today(one.steps().getLast())) : one.steps().stream()
                            .map(step -> with(step, Optional.empty()))
                            .toList()));
        }
        return new Waiting(waiting.asOf(), waiting.lastDay(), sessions, cases);
    }

    /** A procedure for which nothing is waited any more. */
    private static Step today(Step step) {
        return new Step(step.kind(), step.minutes(), Set.of(), List.of(), 0, Optional.empty(), Optional.empty());
    }

    private static WaitingCase with(WaitingCase one, List<Step> steps) {
        return new WaitingCase(one.reference(), one.patient(), one.tier(), one.target(), steps);
    }

    private static Step with(Step step, Optional<String> told) {
        return new Step(
                step.kind(),
                step.minutes(),
                step.needs(),
                step.barred(),
                step.daysAfterPrevious(),
                step.countsDays(),
                told);
    }

    /** Whoever comes within four weeks has been told, and one of three after that. */
    private static Waiting told(Waiting waiting, KeptPlaces kept, long seed) {
        var random = new Random(seed);
        var near = new HashSet<String>();
        waiting.sessions().stream()
                .filter(session -> session.date().isBefore(waiting.asOf().plusWeeks(4)))
                .map(Session::id)
                .forEach(near::add);
        return new Waiting(
                waiting.asOf(),
                waiting.lastDay(),
                waiting.sessions(),
                waiting.cases().stream()
                        .map(one -> with(
                                one,
                                one.steps().stream()
                                        .map(step -> with(
                                                step,
                                                kept.of(one.reference(), step.kind())
                                                        .filter(session ->
                                                                near.contains(session) || random.nextInt(3) == 0)))
                                        .toList()))
                        .toList());
    }

    private static List<Disruption> disruptions(Waiting waiting, KeptPlaces kept) {
        var tomorrow = waiting.asOf().plusDays(1).atStartOfDay();
        var room = waiting.sessions().stream()
                .filter(session -> session.kind() == SessionKind.PROCEDURE_ROOM
                        && !session.start().isBefore(tomorrow)
                        && kept.sessions().values().stream().anyMatch(places -> places.containsValue(session.id())))
                .findFirst()
                .orElseThrow();
        var clinic = waiting.sessions().stream()
                .filter(session -> session.kind() == SessionKind.CLINIC
                        && kept.sessions().values().stream().anyMatch(places -> places.containsValue(session.id())))
                .findFirst()
                .orElseThrow();
        var cancels = waiting.cases().stream()
                .filter(one -> kept.of(one.reference(), StepKind.PROCEDURE)
                        .filter(room.id()::equals)
                        .isPresent())
                .findFirst()
                .orElseThrow();
        return List.of(
                new Emergency("EMERGENCY", 150, Set.of()),
                new OperatorAway(clinic.operator(), waiting.asOf().atStartOfDay(), tomorrow.plusDays(7), "ill"),
                new PlaceDown(room.place(), waiting.asOf().atStartOfDay(), tomorrow.plusDays(7), "down"),
                new PatientCancels(cancels.reference(), waiting.asOf().atStartOfDay(), tomorrow.plusDays(14)));
    }

    private static double seconds(long begin) {
        return (System.nanoTime() - begin) / (double) TimeUnit.SECONDS.toNanos(1);
    }
}
