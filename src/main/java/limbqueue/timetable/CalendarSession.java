package limbqueue.timetable;

import java.time.Instant;
import java.util.UUID;
import limbqueue.booking.SessionKind;

/**
 * A session as a calendar shows it. It holds nothing of any patient.
 *
 * @param uid what the session is called in every calendar, the same for good
 * @param closed whether nobody can be treated in it after all; why is not told, since it may be private
 * @param cases how many are in it, 0 or more
 * @param changes how often it has changed, or who is in it, since it was entered: 0 or more, and never less than before
 * @param changed when it was entered or last changed
 */
public record CalendarSession(
        UUID uid,
        SessionKind kind,
        Instant start,
        Instant end,
        String place,
        String operator,
        boolean closed,
        int cases,
        int changes,
        Instant changed) {}
