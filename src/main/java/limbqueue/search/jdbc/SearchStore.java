package limbqueue.search.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.ReferralState;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Asks the database what has which words. What is asked is kept up to date by the database itself. */
@Repository
public class SearchStore {

    /**
     * A question with one word that is everywhere would be ranked from end to end. So many of each kind are ranked, names and
     * numbers first, which whoever knows a name never notices.
     */
    private static final int RANKED = 500;

    private final JdbcClient jdbc;

    SearchStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** @param letters the words of every letter that was written about it, the newest first */
    public record Row(
            long id,
            String reference,
            ReferralState state,
            Optional<LocalDate> born,
            LocalDate received,
            String document,
            String letters) {}

    /** The words as the database folds them, in their order. */
    public List<String> folded(List<String> words) {
        return jdbc.sql("""
                select folded(word) as folded
                from unnest(cast(:words as text[])) with ordinality as typed (word, place)
                order by place
                """)
                .param("words", words.toArray(String[]::new))
                .query((row, number) -> row.getString(1))
                .list();
    }

    /**
     * Ids of referrals that have the words: those with the whole words in name or number first, then those with their
     * beginnings there, then by how much of the rest has them.
     *
     * @param beginnings the query, each word of which may go on
     * @param whole the same with whole words
     */
    public List<Long> find(String beginnings, String whole, int limit) {
        return jdbc.sql("""
                with asked as materialized (
                    select cast(:beginnings as tsquery) as beginnings, cast(:whole as tsquery) as whole
                ),
                named as materialized (
                    select s.referral from searchable s where s.who @@ cast(:whole as tsquery) limit :ranked
                ),
                beginning as materialized (
                    select s.referral from searchable s where s.who @@ cast(:beginnings as tsquery) limit :ranked
                ),
                anywhere as materialized (
                    select s.referral from searchable s where s.words @@ cast(:beginnings as tsquery) limit :ranked
                )
                select s.referral
                from (select referral from named union select referral from beginning union select referral from anywhere)
                         as candidate
                     join searchable s using (referral)
                     join referral r on r.id = s.referral
                     cross join asked
                order by s.who @@ asked.whole desc, s.who @@ asked.beginnings desc,
                         ts_rank('{0.1, 0.2, 0.4, 1.0}', s.words, asked.beginnings) desc, r.received desc, r.id desc
                limit :limit
                """)
                .param("beginnings", beginnings)
                .param("whole", whole)
                .param("ranked", RANKED)
                .param("limit", limit)
                .query((row, number) -> row.getLong(1))
                .list();
    }

    /** Ids of referrals of patients whose name is written nearly as {@code typed}, the nearest first. */
    public List<Long> similarNames(String typed, int limit) {
        return jdbc.sql("""
                select s.referral
                from searchable s cross join (select folded(:typed) as name) as typed
                where typed.name <% s.name
                order by word_similarity(typed.name, s.name) desc, s.referral desc
                limit :limit
                """)
                .param("typed", typed)
                .param("limit", limit)
                .query((row, number) -> row.getLong(1))
                .list();
    }

    /** The referrals with these ids, in this order. */
    public List<Row> rows(List<Long> ids) {
        return jdbc.sql("""
                        select r.id, r.reference, r.state, s.born, r.received, r.document::text as document,
                               coalesce((select string_agg(l.text, ' ' order by l.id desc)
                                         from letter l where l.referral = r.id), '') as letters
                        from referral r join searchable s on s.referral = r.id
                        where r.id = any (:ids)
                        """).param("ids", ids.toArray(Long[]::new)).query(SearchStore::row).list().stream()
                .sorted(Comparator.comparing(row -> ids.indexOf(row.id())))
                .toList();
    }

    private static Row row(ResultSet row, int number) throws SQLException {
        return new Row(
                row.getLong("id"),
                row.getString("reference"),
                ReferralState.valueOf(row.getString("state")),
                Optional.ofNullable(row.getObject("born", LocalDate.class)),
                row.getObject("received", LocalDate.class),
                row.getString("document"),
                row.getString("letters"));
    }
}
