package limbqueue.prospect;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import limbqueue.booking.Session;
import limbqueue.forecast.WeeklySession;

/** The sessions that a usual week has, from those of the weeks to come. */
final class UsualWeek {

    private static final int WEEK = 7;

    private UsualWeek() {}

    /**
     * The days of the week that have a session in at least half of the weeks from {@code today} until the last session, each with
     * the mean minutes of such a day.
     *
     * @param sessions of the procedure room, none before {@code today}
     */
    static List<WeeklySession> of(List<Session> sessions, LocalDate today) {
        var last =
                sessions.stream().map(Session::date).max(LocalDate::compareTo).orElse(today);
        var weeks = ChronoUnit.DAYS.between(today, last) / WEEK + 1;
        var byDay = new EnumMap<DayOfWeek, Map<LocalDate, Integer>>(DayOfWeek.class);
        sessions.forEach(session -> byDay.computeIfAbsent(session.date().getDayOfWeek(), _ -> new HashMap<>())
                .merge(session.date(), session.minutes(), Integer::sum));
        return byDay.entrySet().stream()
                .filter(entry -> entry.getValue().size() * 2L >= weeks)
                .map(entry -> new WeeklySession(
                        entry.getKey(),
                        Math.toIntExact(Math.round(entry.getValue().values().stream()
                                .collect(Collectors.averagingInt(minutes -> minutes))))))
                .toList();
    }
}
