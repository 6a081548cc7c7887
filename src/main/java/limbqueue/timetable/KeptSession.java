package limbqueue.timetable;

import java.time.Instant;
import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import java.util.Optional;
import limbqueue.booking.Session;

/**
 * A session as it is kept.
 *
 * @param version for optimistic locking, from 1
 * @param session as the planner sees it, under a name that a person understands
 * @param closedBecause why nobody can be treated in it after all; empty while it is open
 * @param emergencyMinutes that emergencies take of it, 0 or more
 */
public record KeptSession(
        long id,
        int version,
        Session session,
        Optional<String> closedBecause,
        int emergencyMinutes,
        String author,
        Instant at) {

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM yyyy", Locale.ENGLISH);

    /** The name under which a session is planned: one of its kind, and what reasons call it. */
    public static String name(long id, String place) {
        return "no. %d (%s)".formatted(id, place);
    }

    public LocalDate date() {
        return session.date();
    }

    /** What it is, when and where: {@code clinic, Thu 5 Mar 2026, 08:00 to 12:00, Consulting room 1}. */
    public String words() {
        return "%s, %s, %s to %s, %s"
                .formatted(
                        session.kind().words(),
                        DAY.format(date()),
                        session.start().toLocalTime(),
                        session.end().toLocalTime(),
                        session.place());
    }
}
