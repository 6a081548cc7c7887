package limbqueue.timetable;

import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import limbqueue.timetable.jdbc.CalendarQuery;
import limbqueue.timetable.jdbc.CalendarQuery.Row;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;

/**
 * Sessions for calendars, from a month ago to more than a year ahead. It asks for no role: who may see them is decided by
 * whoever asks.
 */
@Component
public class SessionCalendar {

    private static final int DAYS_BACK = 31;

    /** A year, for which sessions are entered ahead, and the month that is looked back. */
    private static final int DAYS_AHEAD = 366 + DAYS_BACK;

    private final CalendarQuery query;
    private final Clock clock;

    SessionCalendar(CalendarQuery query, Clock clock) {
        this.query = query;
        this.clock = clock;
    }

    /** The sessions in this place, by time; upper and lower case are the same. */
    @Transactional(readOnly = true)
    public List<CalendarSession> inPlace(String place) {
        return moments(query.inPlace(place, first(), last()));
    }

    /** The sessions of this operator, by time; upper and lower case are the same. */
    @Transactional(readOnly = true)
    public List<CalendarSession> ofOperator(String operator) {
        return moments(query.ofOperator(operator, first(), last()));
    }

    /** Places that have sessions, by name, each once. */
    @Transactional(readOnly = true)
    public List<String> places() {
        return query.places(first(), last());
    }

    /** Operators who have sessions, by name, each once. */
    @Transactional(readOnly = true)
    public List<String> operators() {
        return query.operators(first(), last());
    }

    private LocalDate first() {
        return LocalDate.now(clock).minusDays(DAYS_BACK);
    }

    private LocalDate last() {
        return LocalDate.now(clock).plusDays(DAYS_AHEAD);
    }

    private List<CalendarSession> moments(List<Row> rows) {
        return rows.stream().map(row -> moments(row, clock.getZone())).toList();
    }

    /** Its end is worked out from the minutes that pass, which are right in a night in which clocks are changed too. */
    static CalendarSession moments(Row row, ZoneId zone) {
        var start = row.starts().atZone(zone).toInstant();
        return new CalendarSession(
                row.uid(),
                row.kind(),
                start,
                start.plus(Duration.ofMinutes(row.minutes())),
                row.place(),
                row.operator(),
                row.closed(),
                row.cases(),
                row.changes(),
                row.changed());
    }
}
