package limbqueue.timetable;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import limbqueue.booking.Session;
import limbqueue.booking.StepKind;
import limbqueue.booking.WaitingCase;
import limbqueue.timetable.Paths.QueuedCase;

/**
 * What is stored at one moment.
 *
 * @param now on the clock of the practice
 * @param zone of the practice
 * @param lastDay that is planned for
 * @param queue who waits
 * @param sessions of the time that is planned for, and those in which somebody who waits has a place, by their ids
 * @param inSessions whoever is in those sessions
 * @param places of those who wait, by the referral
 * @param versions of appointments that those who wait have or had
 */
record WhatIsKept(
        LocalDateTime now,
        ZoneId zone,
        LocalDate lastDay,
        List<QueuedCase> queue,
        Map<Long, KeptSession> sessions,
        List<Placed> inSessions,
        Map<Long, List<Placed>> places,
        Map<Long, Map<StepKind, Integer>> versions) {

    LocalDate today() {
        return now.toLocalDate();
    }

    List<WaitingCase> waiting() {
        return queue.stream().flatMap(one -> one.waiting().stream()).toList();
    }

    Map<String, QueuedCase> byReference() {
        return queue.stream().collect(Collectors.toMap(QueuedCase::reference, one -> one));
    }

    /** The sessions by the names under which they are planned. */
    Map<String, KeptSession> byName() {
        return sessions.values().stream()
                .collect(Collectors.toMap(one -> one.session().id(), one -> one));
    }

    Optional<Placed> place(long referralId, StepKind step) {
        return places.getOrDefault(referralId, List.of()).stream()
                .filter(one -> one.step() == step)
                .findFirst();
    }

    /** The version of the appointment of a step, 0 where it never had one. */
    int version(long referralId, StepKind step) {
        return versions.getOrDefault(referralId, Map.of()).getOrDefault(step, 0);
    }

    /** Sessions less the minutes of those who are not among {@code planned} and keep their places, and less those that emergencies take. */
    List<Session> openTo(Collection<WaitingCase> planned) {
        var steps = steps(planned);
        var held = inSessions.stream()
                .filter(one -> !steps.contains(key(one.reference(), one.step())))
                .collect(Collectors.groupingBy(
                        Placed::session,
                        Collectors.summingLong(one -> one.minutes().expected())));
        var open = new ArrayList<Session>();
        for (var kept : sessions.values()) {
            var session = kept.session();
            var left = Math.toIntExact(session.minutes() - kept.emergencyMinutes() - held.getOrDefault(kept.id(), 0L));
            if (!kept.date().isBefore(today()) && !kept.date().isAfter(lastDay) && left > 0) {
                var of = session.lasting(left);
                open.add(kept.closedBecause()
                        .map(WhatIsKept::endOfASentence)
                        .map(of::closedFor)
                        .orElse(of));
            }
        }
        return open;
    }

    private static String endOfASentence(String because) {
        return because.endsWith(".") ? because.substring(0, because.length() - 1) : because;
    }

    static Set<String> steps(Collection<WaitingCase> waiting) {
        return waiting.stream()
                .flatMap(one -> one.steps().stream().map(step -> key(one.reference(), step.kind())))
                .collect(Collectors.toSet());
    }

    static String key(String reference, StepKind step) {
        return reference + " " + step;
    }
}
