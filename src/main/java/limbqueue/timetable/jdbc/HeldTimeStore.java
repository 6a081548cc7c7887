package limbqueue.timetable.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DayOfWeek;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.timetable.HeldTimeChoice;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and keeps what was chosen to be held of each week. */
@Repository
public class HeldTimeStore {

    private final JdbcClient jdbc;

    HeldTimeStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** What was chosen last; empty while nobody has. */
    public Optional<HeldTimeChoice> latest() {
        return jdbc.sql("""
                select by_day, release_days, author, at
                from held_time_choice
                order by id desc
                limit 1
                """).query(HeldTimeStore::choice).optional();
    }

    public void add(Map<DayOfWeek, Integer> minutes, int releaseDays, Person author, Instant at) {
        jdbc.sql("""
                insert into held_time_choice (by_day, release_days, account, author, at)
                values (:minutes, :release, :account, :author, :at)
                """)
                .param(
                        "minutes",
                        Arrays.stream(DayOfWeek.values())
                                .map(day -> minutes.getOrDefault(day, 0))
                                .toArray(Integer[]::new))
                .param("release", releaseDays)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    private static HeldTimeChoice choice(ResultSet row, int number) throws SQLException {
        var minutes = new EnumMap<DayOfWeek, Integer>(DayOfWeek.class);
        var byDay = (Integer[]) row.getArray("by_day").getArray();
        for (var day : DayOfWeek.values()) {
            minutes.put(day, byDay[day.ordinal()]);
        }
        return new HeldTimeChoice(
                minutes,
                row.getInt("release_days"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
