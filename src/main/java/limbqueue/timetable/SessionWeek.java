package limbqueue.timetable;

import java.time.LocalDate;
import java.util.List;

/**
 * The sessions of one week.
 *
 * @param monday its first day
 * @param sessions by time, closed ones too
 */
public record SessionWeek(LocalDate monday, LocalDate today, List<FilledSession> sessions) {

    public List<FilledSession> on(LocalDate day) {
        return sessions.stream().filter(one -> one.kept().date().equals(day)).toList();
    }
}
