package limbqueue.booking;

import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;

/**
 * What is to be planned.
 *
 * @param asOf the day of planning; no session before it is used
 * @param lastDay the last day that is planned for; who has no place by then counts as late from there on, so it must not
 *     hang on whether there is a session on it
 * @param sessions no two of one name, none after {@code lastDay}
 * @param cases no two of one reference
 * @param zone of the place: what its clocks show while a session lasts
 */
public record Waiting(LocalDate asOf, LocalDate lastDay, List<Session> sessions, List<WaitingCase> cases, ZoneId zone) {

    /** At a place whose clocks are never changed. */
    public Waiting(LocalDate asOf, LocalDate lastDay, List<Session> sessions, List<WaitingCase> cases) {
        this(asOf, lastDay, sessions, cases, ZoneOffset.UTC);
    }

    /** What is to be planned until the last session, at a place whose clocks are never changed. */
    public static Waiting untilTheLastSession(LocalDate asOf, List<Session> sessions, List<WaitingCase> cases) {
        return untilTheLastSession(asOf, ZoneOffset.UTC, sessions, cases);
    }

    /** What is to be planned until the last session. */
    public static Waiting untilTheLastSession(
            LocalDate asOf, ZoneId zone, List<Session> sessions, List<WaitingCase> cases) {
        var lastDay = sessions.stream()
                .map(Session::date)
                .filter(date -> date.isAfter(asOf))
                .max(Comparator.naturalOrder())
                .orElse(asOf);
        return new Waiting(asOf, lastDay, sessions, cases, zone);
    }

    /**
     * Sorted, so that the order in which things are handed in does not matter.
     *
     * @throws IllegalArgumentException if two sessions or two cases have one name, or a session is after the last day
     */
    public Waiting {
        sessions = sessions.stream()
                .sorted(Comparator.comparing(Session::start).thenComparing(Session::id))
                .toList();
        cases = cases.stream()
                .sorted(Comparator.comparing(WaitingCase::tier)
                        .thenComparing(WaitingCase::target)
                        .thenComparing(WaitingCase::reference))
                .toList();
        var names = new HashSet<String>();
        for (var session : sessions) {
            if (!names.add(session.id())) {
                throw new IllegalArgumentException("two sessions are named " + session.id());
            }
            if (session.date().isAfter(lastDay)) {
                throw new IllegalArgumentException("%s is after %s".formatted(session.id(), lastDay));
            }
        }
        names.clear();
        for (var waiting : cases) {
            if (!names.add(waiting.reference())) {
                throw new IllegalArgumentException("two cases are named " + waiting.reference());
            }
        }
    }
}
