package limbqueue.access.jdbc;

import java.time.OffsetDateTime;
import java.util.List;
import limbqueue.access.AuditEntry;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Adds to the audit trail and reads it; nothing changes it. */
@Repository
public class AuditStore {

    private final JdbcClient jdbc;

    AuditStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * Adds one entry.
     *
     * @param accountId null where the application itself acted
     */
    public void append(@Nullable Long accountId, String who, String action, String subject) {
        jdbc.sql("""
                        insert into audit_entry (account_id, who, action, subject)
                        values (:accountId, :who, :action, :subject)""")
                .param("accountId", accountId)
                .param("who", who)
                .param("action", action)
                .param("subject", subject)
                .update();
    }

    public List<AuditEntry> newestFirst(int offset, int limit) {
        return jdbc.sql("""
                        select at, who, action, subject
                        from audit_entry
                        order by id desc
                        offset :offset limit :limit""")
                .param("offset", offset)
                .param("limit", limit)
                .query((row, number) -> new AuditEntry(
                        row.getObject("at", OffsetDateTime.class).toInstant(),
                        row.getString("who"),
                        row.getString("action"),
                        row.getString("subject")))
                .list();
    }
}
