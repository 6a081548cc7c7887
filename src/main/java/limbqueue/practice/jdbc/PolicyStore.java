package limbqueue.practice.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.practice.SecondLook;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and adds versions of the policy. */
@Repository
public class PolicyStore {

    /** A version as kept, its policy as JSON text. */
    public record Kept(
            int version,
            String content,
            LocalDate validFrom,
            String who,
            String reason,
            SecondLook secondLook,
            Instant at) {}

    private final JdbcClient jdbc;

    PolicyStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    public Kept inForceOn(LocalDate day) {
        return jdbc.sql("""
                select version, content::text as content, valid_from, who, reason, second_look_red_flag,
                       second_look_limb_threat, at
                from policy_version
                where valid_from <= :day
                order by version desc
                limit 1
                """).param("day", day).query(PolicyStore::kept).single();
    }

    public Optional<Kept> find(String policy) {
        return jdbc.sql("""
                select version, content::text as content, valid_from, who, reason, second_look_red_flag,
                       second_look_limb_threat, at
                from policy_version
                where policy = :policy
                """).param("policy", policy).query(PolicyStore::kept).optional();
    }

    /** Every version, the newest first. */
    public List<Kept> all() {
        return jdbc.sql("""
                select version, content::text as content, valid_from, who, reason, second_look_red_flag,
                       second_look_limb_threat, at
                from policy_version
                order by version desc
                """).query(PolicyStore::kept).list();
    }

    /** Lets nobody else add a version before this transaction ends. */
    public void lock() {
        jdbc.sql("lock table policy_version in share row exclusive mode").update();
    }

    /** Adds the next version. */
    public Kept add(
            String policy, String content, LocalDate validFrom, Person author, String reason, SecondLook secondLook) {
        return jdbc.sql("""
                insert into policy_version (version, policy, content, valid_from, account, who, reason,
                                            second_look_red_flag, second_look_limb_threat)
                select max(version) + 1, :policy, cast(:content as json), :validFrom, :account, :who, :reason,
                       :redFlag, :limbThreat
                from policy_version
                returning version, content::text as content, valid_from, who, reason, second_look_red_flag,
                          second_look_limb_threat, at
                """)
                .param("policy", policy)
                .param("content", content)
                .param("validFrom", validFrom)
                .param("account", author.id())
                .param("who", author.displayName())
                .param("reason", reason)
                .param("redFlag", secondLook.loweredAgainstRedFlag())
                .param("limbThreat", secondLook.loweredBelowLimbThreat())
                .query(PolicyStore::kept)
                .single();
    }

    private static Kept kept(ResultSet row, int number) throws SQLException {
        return new Kept(
                row.getInt("version"),
                row.getString("content"),
                row.getObject("valid_from", LocalDate.class),
                row.getString("who"),
                row.getString("reason"),
                new SecondLook(row.getBoolean("second_look_red_flag"), row.getBoolean("second_look_limb_threat")),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
