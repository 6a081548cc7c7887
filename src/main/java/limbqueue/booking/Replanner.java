package limbqueue.booking;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.booking.Disruption.Emergency;
import limbqueue.booking.Disruption.OperatorAway;
import limbqueue.booking.Disruption.PatientCancels;
import limbqueue.booking.Disruption.PlaceDown;
import limbqueue.booking.solver.ReplanSearch;
import limbqueue.triage.Tier;

/** Proposes what becomes of a plan that is kept when something has happened to it, moving the fewest who have been told. */
public final class Replanner {

    /** A search that is over before somebody who waits for it grows impatient, and gives the same plan every time. */
    public static final Search USUAL = Search.of(1, 120_000);

    private Replanner() {}

    /**
     * The best plan that was found.
     *
     * @param waiting who waits, and the sessions as they were before
     * @param kept where steps are; a place in a session that is not among those of {@code waiting} is lost
     * @throws IllegalArgumentException if {@code disruption} names a case that does not wait, or an emergency one that does
     */
    public static Replan replan(Waiting waiting, KeptPlaces kept, Disruption disruption, Search search) {
        var closed = closed(waiting, disruption);
        var sessions = new HashMap<String, Session>();
        waiting.sessions().forEach(session -> sessions.put(session.id(), session));
        closed.forEach(session -> sessions.put(session.id(), session));
        var cases = cases(waiting, disruption);
        var stillPossible = stillPossible(cases, kept, sessions, disruption, waiting.asOf());
        var now = new Waiting(
                waiting.asOf(),
                waiting.lastDay(),
                withRoomForWhoIsKept(sessions, cases, stillPossible),
                cases,
                waiting.zone());
        return ReplanSearch.replan(now, kept, stillPossible, closed, search);
    }

    private static List<Session> closed(Waiting waiting, Disruption disruption) {
        var why = switch (disruption) {
            case OperatorAway away -> away.why();
            case PlaceDown down -> down.why();
            case Emergency _, PatientCancels _ -> "";
        };
        return disruption.closes(waiting.sessions()).stream()
                .filter(session -> !session.date().isBefore(waiting.asOf()))
                .map(session -> session.closedFor(endOfASentence(why)))
                .toList();
    }

    /** Typed as a sentence or not, it stands at the end of one. */
    private static String endOfASentence(String why) {
        var stripped = why.strip();
        return stripped.endsWith(".") ? stripped.substring(0, stripped.length() - 1) : stripped;
    }

    private static List<WaitingCase> cases(Waiting waiting, Disruption disruption) {
        return switch (disruption) {
            case OperatorAway _, PlaceDown _ -> waiting.cases();
            case Emergency emergency -> {
                var cases = new ArrayList<>(waiting.cases());
                cases.add(emergency(emergency, waiting.asOf()));
                yield cases;
            }
            case PatientCancels cancels -> {
                if (waiting.cases().stream().noneMatch(one -> one.reference().equals(cancels.reference()))) {
                    throw new IllegalArgumentException("no case is named " + cancels.reference());
                }
                yield waiting.cases().stream()
                        .map(one -> one.reference().equals(cancels.reference()) ? without(one, cancels) : one)
                        .toList();
            }
        };
    }

    private static WaitingCase emergency(Emergency emergency, LocalDate today) {
        return new WaitingCase(
                emergency.reference(),
                "emergency|" + emergency.reference(),
                Tier.SAME_DAY,
                today,
                List.of(new Step(
                        StepKind.PROCEDURE,
                        new StepMinutes(emergency.minutes(), emergency.minutes()),
                        emergency.needs(),
                        List.of(Barred.after(today, "an emergency does not wait for another day")),
                        0,
                        Optional.empty(),
                        Optional.empty())));
    }

    private static WaitingCase without(WaitingCase one, PatientCancels cancels) {
        var away = new Barred(cancels.from(), cancels.until(), "the patient cannot come");
        return new WaitingCase(
                one.reference(),
                one.patient(),
                one.tier(),
                one.target(),
                one.steps().stream()
                        .map(step -> {
                            var barred = new ArrayList<>(step.barred());
                            barred.add(away);
                            return new Step(
                                    step.kind(),
                                    step.minutes(),
                                    step.needs(),
                                    barred,
                                    step.daysAfterPrevious(),
                                    step.countsDays(),
                                    step.told());
                        })
                        .toList());
    }

    /** Places that can stay as they are; whether a person should have put somebody there is not asked again. */
    private static KeptPlaces stillPossible(
            List<WaitingCase> cases,
            KeptPlaces kept,
            Map<String, Session> sessions,
            Disruption disruption,
            LocalDate today) {
        var possible = new HashMap<String, Map<StepKind, String>>();
        for (var one : cases) {
            for (var step : one.steps()) {
                kept.of(one.reference(), step.kind())
                        .flatMap(name -> Optional.ofNullable(sessions.get(name)))
                        .filter(session -> session.kind() == step.kind().session()
                                && !session.closed()
                                && !session.date().isBefore(today)
                                && !givesUp(disruption, one, session))
                        .ifPresent(session -> possible.computeIfAbsent(one.reference(), _ -> new HashMap<>())
                                .put(step.kind(), session.id()));
            }
        }
        return new KeptPlaces(possible);
    }

    private static boolean givesUp(Disruption disruption, WaitingCase one, Session session) {
        return disruption instanceof PatientCancels(var reference, var from, var until)
                && reference.equals(one.reference())
                && new Barred(from, until, "").bars(session);
    }

    /** A session that a person has filled beyond its end holds whoever is in it: nobody is to be moved for that now. */
    private static List<Session> withRoomForWhoIsKept(
            Map<String, Session> sessions, List<WaitingCase> cases, KeptPlaces kept) {
        var held = cases.stream()
                .flatMap(one -> one.steps().stream()
                        .flatMap(step -> kept.of(one.reference(), step.kind()).stream()
                                .map(session ->
                                        Map.entry(session, step.minutes().expected()))))
                .collect(Collectors.groupingBy(Map.Entry::getKey, Collectors.summingLong(Map.Entry::getValue)));
        return sessions.values().stream()
                .map(session -> {
                    var minutes = Math.toIntExact(held.getOrDefault(session.id(), 0L));
                    return minutes > session.minutes() ? session.lasting(minutes) : session;
                })
                .toList();
    }
}
