package limbqueue.csv.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.Person;
import limbqueue.csv.CsvImport;
import limbqueue.csv.DateOrder;
import limbqueue.csv.Mapping;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;
import tools.jackson.core.type.TypeReference;
import tools.jackson.databind.json.JsonMapper;

/** Keeps files and how far each has come. */
@Repository
public class CsvStore {

    private static final int LATEST = 20;

    private final JdbcClient jdbc;
    private final JsonMapper json;

    CsvStore(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    public CsvImport add(String name, byte[] content, int rows, Person author, Instant at) {
        return jdbc.sql("""
                insert into csv_import (name, content, rows, state, account, author, at)
                values (:name, :content, :rows, 'LOADED', :account, :author, :at)
                returning id, name, state, rows, mapping::text as mapping, date_order, seen, entered, known, refused, author, at
                """)
                .param("name", name.replace("\u0000", ""))
                .param("content", content)
                .param("rows", rows)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(this::row)
                .single();
    }

    public Optional<CsvImport> find(long id) {
        return jdbc.sql("""
                select id, name, state, rows, mapping::text as mapping, date_order, seen, entered, known, refused, author, at
                from csv_import
                where id = :id
                """).param("id", id).query(this::row).optional();
    }

    public List<CsvImport> latest() {
        return jdbc.sql("""
                select id, name, state, rows, mapping::text as mapping, date_order, seen, entered, known, refused, author, at
                from csv_import
                order by id desc
                limit :limit
                """).param("limit", LATEST).query(this::row).list();
    }

    /** @throws org.springframework.dao.EmptyResultDataAccessException if there is none with this id */
    public byte[] content(long id) {
        return jdbc.sql("select content from csv_import where id = :id")
                .param("id", id)
                .query(byte[].class)
                .single();
    }

    /** What the columns of this header were last time. */
    public Optional<Mapping> mapping(String header) {
        return jdbc.sql("select mapping::text as mapping, date_order from csv_mapping where header = :header")
                .param("header", header)
                .query((row, number) -> mapping(row.getString("mapping"), row.getString("date_order")))
                .optional();
    }

    public void keep(String header, Mapping mapping) {
        jdbc.sql("""
                insert into csv_mapping (header, mapping, date_order)
                values (:header, cast(:mapping as json), :order)
                on conflict (header) do update
                set mapping = excluded.mapping, date_order = excluded.date_order, at = clock_timestamp()
                """)
                .param("header", header)
                .param("mapping", json.writeValueAsString(mapping.fields()))
                .param("order", mapping.dateOrder().name())
                .update();
    }

    /** Begins anew: what is in is told from the rest by its digest. */
    public void begin(long id, Mapping mapping) {
        jdbc.sql("""
                update csv_import
                set state = 'RUNNING', mapping = cast(:mapping as json), date_order = :order, seen = 0, entered = 0, known = 0,
                    refused = 0
                where id = :id
                """)
                .param("id", id)
                .param("mapping", json.writeValueAsString(mapping.fields()))
                .param("order", mapping.dateOrder().name())
                .update();
    }

    /** Waits for whoever works on the same file; false if it is not to run any more. */
    public boolean takeTurn(long id) {
        return jdbc.sql("select state from csv_import where id = :id for update")
                .param("id", id)
                .query(String.class)
                .single()
                .equals("RUNNING");
    }

    public void count(long id, int entered, int known, int refused) {
        jdbc.sql("""
                update csv_import
                set seen = least(rows, seen + :entered + :known + :refused), entered = entered + :entered,
                    known = known + :known, refused = refused + :refused
                where id = :id
                """)
                .param("id", id)
                .param("entered", entered)
                .param("known", known)
                .param("refused", refused)
                .update();
    }

    public void end(long id) {
        jdbc.sql("update csv_import set state = 'DONE' where id = :id and state = 'RUNNING'")
                .param("id", id)
                .update();
    }

    /** Whether it was running. */
    public boolean cancel(long id) {
        return jdbc.sql("update csv_import set state = 'CANCELLED' where id = :id and state = 'RUNNING'")
                        .param("id", id)
                        .update()
                == 1;
    }

    public boolean isKnown(String digest) {
        return jdbc.sql("select exists (select from csv_row where digest = :digest)")
                .param("digest", digest)
                .query(Boolean.class)
                .single();
    }

    /** Those of the digests whose row is in. */
    public Set<String> known(Collection<String> digests) {
        return new HashSet<>(jdbc.sql("select digest from csv_row where digest = any (:digests)")
                .param("digests", digests.toArray(String[]::new))
                .query(String.class)
                .list());
    }

    public void add(String digest, long of, int line, long referral, Instant at) {
        jdbc.sql("""
                insert into csv_row (digest, import, line, referral, at)
                values (:digest, :import, :line, :referral, :at)
                """)
                .param("digest", digest)
                .param("import", of)
                .param("line", line)
                .param("referral", referral)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    private CsvImport row(ResultSet row, int number) throws SQLException {
        var mapping = row.getString("mapping");
        return new CsvImport(
                row.getLong("id"),
                row.getString("name"),
                CsvImport.State.valueOf(row.getString("state")),
                row.getInt("rows"),
                mapping == null ? Optional.empty() : Optional.of(mapping(mapping, row.getString("date_order"))),
                row.getInt("seen"),
                row.getInt("entered"),
                row.getInt("known"),
                row.getInt("refused"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }

    private Mapping mapping(String fields, String order) {
        Map<String, String> known = json.readValue(fields, new TypeReference<LinkedHashMap<String, String>>() {});
        return new Mapping(known, DateOrder.valueOf(order));
    }
}
