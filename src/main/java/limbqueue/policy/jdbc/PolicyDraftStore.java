package limbqueue.policy.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.TreeMap;
import limbqueue.access.Person;
import limbqueue.policy.PolicyDraft;
import limbqueue.policy.TypedPolicy;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import tools.jackson.databind.json.JsonMapper;

/** Keeps every step of the draft. */
@Repository
public class PolicyDraftStore {

    /** How a draft ended. */
    public enum Ending {
        PUBLISHED,
        DISCARDED
    }

    private final JdbcClient jdbc;
    private final JsonMapper json;

    PolicyDraftStore(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Lets nobody else take a step before this transaction ends. */
    public void lock() {
        jdbc.sql("lock table policy_draft in share row exclusive mode").update();
    }

    public Optional<PolicyDraft> current() {
        return jdbc.sql("""
                select id, typed::text as typed, author, at
                from (select * from policy_draft where not overtaken order by id desc limit 1) newest
                where ended is null
                """).query(this::draft).optional();
    }

    /** The next step of the draft. */
    public PolicyDraft add(Optional<Long> madeOn, TypedPolicy typed, Person author, Instant at) {
        var id = insert(madeOn, typed, false, null, author, at);
        return new PolicyDraft(id, typed, author.displayName(), at);
    }

    /** What was typed on a step that is not the newest. */
    public void keepOvertaken(Optional<Long> madeOn, TypedPolicy typed, Person author, Instant at) {
        insert(madeOn, typed, true, null, author, at);
    }

    public void end(PolicyDraft draft, Ending ending, Person author, Instant at) {
        insert(Optional.of(draft.id()), draft.typed(), false, ending.name(), author, at);
    }

    private long insert(
            Optional<Long> madeOn,
            TypedPolicy typed,
            boolean overtaken,
            @Nullable String ended,
            Person author,
            Instant at) {
        return jdbc.sql("""
                insert into policy_draft (made_on, typed, overtaken, ended, account, author, at)
                values (:madeOn, cast(:typed as json), :overtaken, :ended, :account, :author, :at)
                returning id
                """)
                .param("madeOn", madeOn.orElse(null))
                .param("typed", json.writeValueAsString(new TreeMap<>(typed.fields())))
                .param("overtaken", overtaken)
                .param("ended", ended)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(Long.class)
                .single();
    }

    private PolicyDraft draft(ResultSet row, int number) throws SQLException {
        var fields = new TreeMap<String, String>();
        json.readTree(row.getString("typed")).forEachEntry((path, typed) -> fields.put(path, typed.stringValue()));
        return new PolicyDraft(
                row.getLong("id"),
                new TypedPolicy(fields),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
