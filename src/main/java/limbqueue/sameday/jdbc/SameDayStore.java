package limbqueue.sameday.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.sameday.SameDayCase;
import limbqueue.sameday.SameDayCase.Escalation;
import limbqueue.sameday.SameDayCase.Taken;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads same-day cases, which the database itself begins and ends, and adds who took them. */
@Repository
public class SameDayStore {

    private final JdbcClient jdbc;

    SameDayStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** A case that nobody has taken, with what the referral says. */
    public record Ringing(SameDayCase sameDay, String reference, String document) {}

    /** Cases that nobody has taken, the oldest first. */
    public List<Ringing> ringing() {
        return jdbc.sql("""
                select c.id, c.referral, c.since, c.escalated_at, c.escalated_after, c.escalated_to, c.taken_at, c.taken_by,
                       r.reference, r.document::text as document
                from same_day_case c join referral r on r.id = c.referral
                where c.over_at is null and c.taken_at is null
                order by c.since, c.id
                """)
                .query((row, number) ->
                        new Ringing(sameDayCase(row, number), row.getString("reference"), row.getString("document")))
                .list();
    }

    public Optional<SameDayCase> find(long id) {
        return jdbc.sql("""
                select id, referral, since, escalated_at, escalated_after, escalated_to, taken_at, taken_by
                from same_day_case
                where id = :id
                """).param("id", id).query(SameDayStore::sameDayCase).optional();
    }

    /** The case that this referral is now. */
    public Optional<SameDayCase> current(long referral) {
        return jdbc.sql("""
                select id, referral, since, escalated_at, escalated_after, escalated_to, taken_at, taken_by
                from same_day_case
                where referral = :referral and over_at is null
                """)
                .param("referral", referral)
                .query(SameDayStore::sameDayCase)
                .optional();
    }

    /** Gives a case to {@code person}; empty if somebody has it already or it is over. */
    public Optional<SameDayCase> take(long id, Person person, Instant at) {
        return jdbc.sql("""
                update same_day_case
                set taken_at = :at, taken_by = :by, account = :account
                where id = :id and taken_at is null and over_at is null
                returning id, referral, since, escalated_at, escalated_after, escalated_to, taken_at, taken_by
                """)
                .param("id", id)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("by", person.displayName())
                .param("account", person.id())
                .query(SameDayStore::sameDayCase)
                .optional();
    }

    /**
     * Marks every case that nobody has taken for so many minutes as asked of {@code to}. Of two servers that do so at once one
     * finds it done.
     *
     * @return how many were marked
     */
    public int escalate(int minutes, String to) {
        return jdbc.sql("""
                update same_day_case
                set escalated_at = clock_timestamp(), escalated_after = :minutes, escalated_to = :to
                where over_at is null and taken_at is null and escalated_at is null
                      and since <= clock_timestamp() - make_interval(mins => :minutes)
                """).param("minutes", minutes).param("to", to).update();
    }

    private static SameDayCase sameDayCase(ResultSet row, int number) throws SQLException {
        var escalated = row.getObject("escalated_at", OffsetDateTime.class);
        var taken = row.getObject("taken_at", OffsetDateTime.class);
        return new SameDayCase(
                row.getLong("id"),
                row.getLong("referral"),
                row.getObject("since", OffsetDateTime.class).toInstant(),
                escalated == null
                        ? Optional.empty()
                        : Optional.of(new Escalation(
                                escalated.toInstant(), row.getInt("escalated_after"), row.getString("escalated_to"))),
                taken == null
                        ? Optional.empty()
                        : Optional.of(new Taken(taken.toInstant(), row.getString("taken_by"))));
    }
}
