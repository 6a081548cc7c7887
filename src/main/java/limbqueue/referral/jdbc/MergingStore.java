package limbqueue.referral.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.referral.Merged;
import limbqueue.referral.Referral;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Keeps which referral is part of which. */
@Repository
public class MergingStore {

    private final JdbcClient jdbc;

    MergingStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * A merging that was not undone.
     *
     * @param before the document of the whole before it
     * @param after the document of the whole after it
     */
    public record Standing(long id, long whole, String before, String after) {}

    public Optional<Referral> makePart(long id, int version, long whole) {
        return move(id, version, whole);
    }

    public Optional<Referral> takeOut(long id, int version) {
        return move(id, version, null);
    }

    private Optional<Referral> move(long id, int version, @org.jspecify.annotations.Nullable Long whole) {
        return jdbc.sql("""
                update referral
                set version = version + 1, part_of = :whole
                where id = :id and version = :version and (part_of is null) = (cast(:whole as bigint) is not null)
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", id)
                .param("version", version)
                .param("whole", whole)
                .query(ReferralStore::referral)
                .optional();
    }

    public void add(long whole, long part, String before, String after, Person author, Instant at) {
        jdbc.sql("""
                insert into merging (whole, part, before, after, account, author, at)
                values (:whole, :part, cast(:before as json), cast(:after as json), :account, :author, :at)
                """)
                .param("whole", whole)
                .param("part", part)
                .param("before", before)
                .param("after", after)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    public Optional<Standing> standing(long part) {
        return jdbc.sql("""
                select id, whole, before::text as before, after::text as after
                from merging
                where part = :part and undone_at is null
                """)
                .param("part", part)
                .query((row, number) -> new Standing(
                        row.getLong("id"), row.getLong("whole"), row.getString("before"), row.getString("after")))
                .optional();
    }

    public void undo(long merging, Person author, Instant at) {
        jdbc.sql("""
                update merging
                set undone_by = :author, undone_at = :at
                where id = :id and undone_at is null
                """)
                .param("id", merging)
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    public Optional<Merged> wholeOf(long part) {
        return jdbc.sql("""
                select m.whole, w.reference as whole_reference, m.part, p.reference as part_reference, m.author, m.at
                from merging m join referral w on w.id = m.whole join referral p on p.id = m.part
                where m.part = :part and m.undone_at is null
                """).param("part", part).query(MergingStore::merged).optional();
    }

    public List<Merged> partsOf(long whole) {
        return jdbc.sql("""
                select m.whole, w.reference as whole_reference, m.part, p.reference as part_reference, m.author, m.at
                from merging m join referral w on w.id = m.whole join referral p on p.id = m.part
                where m.whole = :whole and m.undone_at is null
                order by m.id
                """).param("whole", whole).query(MergingStore::merged).list();
    }

    private static Merged merged(ResultSet row, int number) throws SQLException {
        return new Merged(
                row.getLong("whole"),
                row.getString("whole_reference"),
                row.getLong("part"),
                row.getString("part_reference"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
