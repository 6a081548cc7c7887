package limbqueue.chasing.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import limbqueue.access.Person;
import limbqueue.chasing.ChasingDays;
import limbqueue.chasing.ChasingDaysVersion;
import limbqueue.triage.Tier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and adds versions of the days. */
@Repository
public class ChasingDaysStore {

    private static final Map<Tier, String> COLUMNS = Map.of(
            Tier.WITHIN_5_DAYS, "call_within_5_days",
            Tier.WITHIN_14_DAYS, "call_within_14_days",
            Tier.WITHIN_6_WEEKS, "call_within_6_weeks",
            Tier.WITHIN_18_WEEKS, "call_within_18_weeks");

    private final JdbcClient jdbc;

    ChasingDaysStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Every version, the newest first; there is always one. */
    public List<ChasingDaysVersion> all() {
        return jdbc.sql("""
                select version, first_reply, second_reply, third_reply, call_within_5_days, call_within_14_days,
                       call_within_6_weeks, call_within_18_weeks, late_warning, who, at, reason
                from chasing_days
                order by version desc
                """).query(ChasingDaysStore::version).list();
    }

    public ChasingDaysVersion newest() {
        return jdbc.sql("""
                select version, first_reply, second_reply, third_reply, call_within_5_days, call_within_14_days,
                       call_within_6_weeks, call_within_18_weeks, late_warning, who, at, reason
                from chasing_days
                order by version desc
                limit 1
                """).query(ChasingDaysStore::version).single();
    }

    /** Adds {@code version}; false if somebody else has added it. */
    public boolean add(int version, ChasingDays days, Person author, String reason) {
        return jdbc.sql("""
                        insert into chasing_days (version, first_reply, second_reply, third_reply, call_within_5_days,
                                                  call_within_14_days, call_within_6_weeks, call_within_18_weeks,
                                                  late_warning, account, who, reason)
                        values (:version, :first, :second, :third, :within5, :within14, :within6, :within18, :late, :account,
                                :who, :reason)
                        on conflict do nothing
                        """)
                        .param("version", version)
                        .param("first", days.firstReply())
                        .param("second", days.secondReply())
                        .param("third", days.thirdReply())
                        .param("within5", days.callEvery(Tier.WITHIN_5_DAYS).orElse(null))
                        .param("within14", days.callEvery(Tier.WITHIN_14_DAYS).orElse(null))
                        .param("within6", days.callEvery(Tier.WITHIN_6_WEEKS).orElse(null))
                        .param("within18", days.callEvery(Tier.WITHIN_18_WEEKS).orElse(null))
                        .param("late", days.lateWarning())
                        .param("account", author.id())
                        .param("who", author.displayName())
                        .param("reason", reason)
                        .update()
                == 1;
    }

    private static ChasingDaysVersion version(ResultSet row, int number) throws SQLException {
        var calls = new EnumMap<Tier, Integer>(Tier.class);
        for (var column : COLUMNS.entrySet()) {
            var days = row.getObject(column.getValue(), Integer.class);
            if (days != null) {
                calls.put(column.getKey(), days);
            }
        }
        return new ChasingDaysVersion(
                row.getInt("version"),
                new ChasingDays(
                        row.getInt("first_reply"),
                        row.getInt("second_reply"),
                        row.getInt("third_reply"),
                        calls,
                        row.getInt("late_warning")),
                row.getString("who"),
                row.getObject("at", OffsetDateTime.class).toInstant(),
                row.getString("reason"));
    }
}
