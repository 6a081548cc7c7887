package limbqueue.booking;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.function.Function;

/**
 * Two sessions that want one room or one operator at the same time.
 *
 * @param session the later one
 * @param other the earlier one
 * @param text what is wrong and what to do
 */
public record DoubleUse(Session session, Session other, String text) {

    /** Every double use among {@code sessions}; a closed session uses nothing. */
    public static List<DoubleUse> among(List<Session> sessions) {
        var found = new ArrayList<DoubleUse>();
        find(sessions, Session::place, "the same place", found);
        find(sessions, Session::operator, "the same operator", found);
        return found;
    }

    private static void find(
            List<Session> sessions, Function<Session, String> of, String words, List<DoubleUse> found) {
        var latest = new HashMap<String, Session>();
        sessions.stream()
                .filter(session -> !session.closed())
                .sorted(Comparator.comparing(Session::start).thenComparing(Session::id))
                .forEach(session -> {
                    var shared = of.apply(session).strip();
                    var other = latest.get(shared);
                    if (other != null && session.overlaps(other)) {
                        found.add(new DoubleUse(
                                session,
                                other,
                                "It has %s as session %s, %s, and both are there on %s from %s to %s. Change the time of one, or close it."
                                        .formatted(
                                                words,
                                                other.id(),
                                                shared,
                                                session.date(),
                                                session.start().toLocalTime(),
                                                (session.end().isBefore(other.end()) ? session : other)
                                                        .end()
                                                        .toLocalTime())));
                    }
                    if (other == null || session.end().isAfter(other.end())) {
                        latest.put(shared, session);
                    }
                });
    }
}
