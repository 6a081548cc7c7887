package limbqueue.samepatient.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.Person;
import limbqueue.referral.ReferralState;
import limbqueue.samepatient.Verdict;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Finds who may be alike, by index and therefore roughly, and keeps what people said of pairs. */
@Repository
public class SamePatientStore {

    /** So many are compared letter by letter. */
    private static final int COMPARED = 200;

    /** So many open referrals are held against all others, the newest first. */
    private static final int OPEN = 1000;

    private final JdbcClient jdbc;

    SamePatientStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    public record Row(long id, String reference, ReferralState state, LocalDate received, String document) {}

    public record Ids(long lower, long higher) {}

    /**
     * Ids of referrals that have an identifier or the telephone number, a similar name, or nearly the name with nearly the
     * birth date. Referrals that are part of another are left out.
     *
     * @param born the birth date and what it may have been mistyped for; the first is the date itself
     */
    public List<Long> near(long except, String name, List<LocalDate> born, String phone, List<String> identifiers) {
        return jdbc.sql("""
                select candidate.referral
                from (
                    (select referral from searchable where identifiers && cast(:identifiers as text[]) limit :compared)
                    union
                    (select referral from searchable where phone = :phone limit :compared)
                    union
                    (select referral from searchable
                     where name % folded(:name)
                     order by similarity(name, folded(:name)) desc, referral desc limit :compared)
                    union
                    (select referral from searchable
                     where born = any (cast(cast(:born as text[]) as date[])) and similarity(name, folded(:name)) > 0.2
                     order by similarity(name, folded(:name)) desc, referral desc limit :compared)
                ) as candidate join referral r on r.id = candidate.referral
                where r.part_of is null and r.id <> :except
                order by r.id desc
                """)
                .param("identifiers", identifiers.toArray(String[]::new))
                .param("phone", phone)
                .param("name", name)
                .param("born", born.stream().map(LocalDate::toString).toArray(String[]::new))
                .param("compared", COMPARED)
                .param("except", except)
                .query((row, number) -> row.getLong(1))
                .list();
    }

    /**
     * Pairs with an identifier, a telephone number, a birth date (also with day and month swapped) or all names in common, one
     * of them still open, neither part of another, of which nothing was said.
     */
    public List<Ids> pairs() {
        return jdbc.sql("""
                with open as materialized (
                    select s.referral, s.name, s.name_key, s.born, s.phone, s.identifiers
                    from searchable s join referral r on r.id = s.referral
                    where r.state in ('DRAFT', 'QUEUED', 'INFORMATION_NEEDED') and r.part_of is null
                    order by r.id desc
                    limit :open
                ),
                pair as (
                    select distinct least(o.referral, other.referral) as lower, greatest(o.referral, other.referral) as higher
                    from open o cross join lateral (
                        (select s.referral from searchable s where s.identifiers && o.identifiers limit :compared)
                        union
                        (select s.referral from searchable s where s.phone = o.phone limit :compared)
                        union
                        (select s.referral from searchable s
                         where s.name_key = o.name_key and s.name_key <> '' limit :compared)
                        union
                        (select s.referral from searchable s
                         where s.born in (o.born, case when extract(day from o.born) <= 12 then
                                   make_date(extract(year from o.born)::integer, extract(day from o.born)::integer,
                                             extract(month from o.born)::integer) end)
                               and similarity(s.name, o.name) > 0.2
                         limit :compared)
                    ) as other
                    where other.referral <> o.referral
                )
                select p.lower, p.higher
                from pair p join referral l on l.id = p.lower join referral h on h.id = p.higher
                where l.part_of is null and h.part_of is null
                      and coalesce((select j.verdict from person_judgement j
                                    where j.lower = p.lower and j.higher = p.higher order by j.id desc limit 1),
                                   'TAKEN_BACK') = 'TAKEN_BACK'
                order by p.higher desc, p.lower desc
                """)
                .param("open", OPEN)
                .param("compared", COMPARED)
                .query((row, number) -> new Ids(row.getLong("lower"), row.getLong("higher")))
                .list();
    }

    /** The referrals with these ids, the newest first. */
    public List<Row> rows(List<Long> ids) {
        return jdbc.sql("""
                select id, reference, state, received, document::text as document
                from referral
                where id = any (:ids)
                order by id desc
                """)
                .param("ids", ids.toArray(Long[]::new))
                .query(SamePatientStore::row)
                .list();
    }

    /** Ids of referrals of which, with this one, something was said that still holds. */
    public Set<Long> judged(long referral) {
        return new HashSet<>(jdbc.sql("""
                select other
                from (
                    select distinct on (other) other, verdict
                    from (
                        select higher as other, verdict, id from person_judgement where lower = :referral
                        union all
                        select lower, verdict, id from person_judgement where higher = :referral
                    ) as said
                    order by other, id desc
                ) as last
                where verdict <> 'TAKEN_BACK'
                """)
                .param("referral", referral)
                .query((row, number) -> row.getLong(1))
                .list());
    }

    public List<Long> samePerson(long referral) {
        return jdbc.sql("""
                select other
                from (
                    select distinct on (other) other, verdict
                    from (
                        select higher as other, verdict, id from person_judgement where lower = :referral
                        union all
                        select lower, verdict, id from person_judgement where higher = :referral
                    ) as said
                    order by other, id desc
                ) as last
                where verdict = 'SAME_PERSON'
                """)
                .param("referral", referral)
                .query((row, number) -> row.getLong(1))
                .list();
    }

    public Optional<Verdict> verdict(long lower, long higher) {
        return jdbc.sql("""
                select verdict
                from person_judgement
                where lower = :lower and higher = :higher
                order by id desc
                limit 1
                """)
                .param("lower", lower)
                .param("higher", higher)
                .query(String.class)
                .optional()
                .map(Verdict::valueOf);
    }

    public void add(long lower, long higher, Verdict verdict, Person author, Instant at) {
        jdbc.sql("""
                insert into person_judgement (lower, higher, verdict, account, author, at)
                values (:lower, :higher, :verdict, :account, :author, :at)
                """)
                .param("lower", lower)
                .param("higher", higher)
                .param("verdict", verdict.name())
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    private static Row row(ResultSet row, int number) throws SQLException {
        return new Row(
                row.getLong("id"),
                row.getString("reference"),
                ReferralState.valueOf(row.getString("state")),
                row.getObject("received", LocalDate.class),
                row.getString("document"));
    }
}
