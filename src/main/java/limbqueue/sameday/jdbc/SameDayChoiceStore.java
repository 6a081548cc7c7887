package limbqueue.sameday.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.util.List;
import limbqueue.access.Person;
import limbqueue.sameday.SameDayChoice;
import limbqueue.sameday.SameDayChoiceVersion;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and adds versions of what the practice has chosen. */
@Repository
public class SameDayChoiceStore {

    private final JdbcClient jdbc;

    SameDayChoiceStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Every version, the newest first; there is always one. */
    public List<SameDayChoiceVersion> all() {
        return jdbc.sql("""
                select version, minutes, hospital, hospital_phone, lead_phone, who, at, reason
                from same_day_choice
                order by version desc
                """).query(SameDayChoiceStore::version).list();
    }

    public SameDayChoiceVersion newest() {
        return jdbc.sql("""
                select version, minutes, hospital, hospital_phone, lead_phone, who, at, reason
                from same_day_choice
                order by version desc
                limit 1
                """).query(SameDayChoiceStore::version).single();
    }

    /** Adds {@code version}; false if somebody else has added it. */
    public boolean add(int version, SameDayChoice choice, Person author, String reason) {
        return jdbc.sql("""
                        insert into same_day_choice (version, minutes, hospital, hospital_phone, lead_phone, account, who,
                                                     reason)
                        values (:version, :minutes, :hospital, :hospitalPhone, :leadPhone, :account, :who, :reason)
                        on conflict do nothing
                        """)
                        .param("version", version)
                        .param("minutes", choice.minutes())
                        .param("hospital", choice.hospital())
                        .param("hospitalPhone", choice.hospitalPhone())
                        .param("leadPhone", choice.leadPhone())
                        .param("account", author.id())
                        .param("who", author.displayName())
                        .param("reason", reason)
                        .update()
                == 1;
    }

    private static SameDayChoiceVersion version(ResultSet row, int number) throws SQLException {
        return new SameDayChoiceVersion(
                row.getInt("version"),
                new SameDayChoice(
                        row.getInt("minutes"),
                        row.getString("hospital"),
                        row.getString("hospital_phone"),
                        row.getString("lead_phone")),
                row.getString("who"),
                row.getObject("at", OffsetDateTime.class).toInstant(),
                row.getString("reason"));
    }
}
