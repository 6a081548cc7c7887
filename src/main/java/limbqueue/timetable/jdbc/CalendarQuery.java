package limbqueue.timetable.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.UUID;
import limbqueue.booking.SessionKind;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads sessions for calendars: nothing of any patient is selected but how many there are. */
@Repository
public class CalendarQuery {

    private static final String SELECT = """
            select s.uid, s.kind, s.starts, s.minutes, s.place, s.operator, s.closed_because is not null as closed,
                   (select count(*) from appointment a where a.session = s.id) as cases,
                   s.version - 1 + moved.changes as changes, greatest(s.at, moved.latest) as changed
            from practice_session s
                 cross join lateral (
                     select count(*) as changes, max(step.at) as latest
                     from (select came.at
                           from appointment_step came
                           where came.session = s.id
                           union all
                           -- Whoever went out of it.
                           select went.at
                           from appointment_step was
                                join appointment_step went
                                    on went.appointment = was.appointment and went.version = was.version + 1
                           where was.session = s.id and went.session is distinct from s.id) step) moved
            where s.starts >= :first and s.starts < :after
            """;

    private static final String BY_TIME = " order by s.starts, s.id";

    private final JdbcClient jdbc;

    CalendarQuery(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * @param starts on the clock of the practice
     * @param minutes that pass in it
     * @param changes of the session and of who is in it
     */
    public record Row(
            UUID uid,
            SessionKind kind,
            LocalDateTime starts,
            int minutes,
            String place,
            String operator,
            boolean closed,
            int cases,
            int changes,
            Instant changed) {}

    public List<Row> inPlace(String place, LocalDate first, LocalDate last) {
        return rows(SELECT + " and lower(s.place) = lower(:name)" + BY_TIME, place, first, last);
    }

    public List<Row> ofOperator(String operator, LocalDate first, LocalDate last) {
        return rows(SELECT + " and lower(s.operator) = lower(:name)" + BY_TIME, operator, first, last);
    }

    private List<Row> rows(String sql, String name, LocalDate first, LocalDate last) {
        return jdbc.sql(sql)
                .param("name", name)
                .param("first", first.atStartOfDay())
                .param("after", last.plusDays(1).atStartOfDay())
                .query(CalendarQuery::row)
                .list();
    }

    public List<String> places(LocalDate first, LocalDate last) {
        return names("""
                select min(place) as name from practice_session
                where starts >= :first and starts < :after
                group by lower(place)
                order by lower(min(place))
                """, first, last);
    }

    public List<String> operators(LocalDate first, LocalDate last) {
        return names("""
                select min(operator) as name from practice_session
                where starts >= :first and starts < :after
                group by lower(operator)
                order by lower(min(operator))
                """, first, last);
    }

    private List<String> names(String sql, LocalDate first, LocalDate last) {
        return jdbc.sql(sql)
                .param("first", first.atStartOfDay())
                .param("after", last.plusDays(1).atStartOfDay())
                .query((row, number) -> row.getString("name"))
                .list();
    }

    private static Row row(ResultSet row, int number) throws SQLException {
        return new Row(
                row.getObject("uid", UUID.class),
                SessionKind.valueOf(row.getString("kind")),
                row.getObject("starts", LocalDateTime.class),
                row.getInt("minutes"),
                row.getString("place"),
                row.getString("operator"),
                row.getBoolean("closed"),
                row.getInt("cases"),
                row.getInt("changes"),
                row.getObject("changed", OffsetDateTime.class).toInstant());
    }
}
