package limbqueue.worklist.jdbc;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.ReferralState;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads which referrals are under way, and how often each has changed. */
@Repository
public class WorkQuery {

    /**
     * A referral that is under way.
     *
     * @param changes how often something of it has changed: the same number means that nothing has
     * @param decidedOn the day of the decision that put it where it stands, if one did
     */
    public record UnderWay(long id, ReferralState state, long changes, Optional<LocalDate> decidedOn) {}

    private final JdbcClient jdbc;

    WorkQuery(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Referrals that are open, and approved ones whose case is not over. */
    public List<UnderWay> underWay() {
        return jdbc.sql("""
                select r.id, r.state, coalesce(c.changes, 0) as changes, d.as_of
                from referral r
                     left join change_count c on c.referral = r.id
                     left join decision d on d.id = r.decision
                where r.state in ('DRAFT', 'QUEUED', 'INFORMATION_NEEDED', 'APPROVED')
                      and not exists (select from recorded_case o where o.referral = r.id)
                order by r.id
                """)
                .query((row, number) -> new UnderWay(
                        row.getLong("id"),
                        ReferralState.valueOf(row.getString("state")),
                        row.getLong("changes"),
                        Optional.ofNullable(row.getObject("as_of", LocalDate.class))))
                .list();
    }

    /**
     * Letters that did not reach anybody, about one referral.
     *
     * @param letters how many
     * @param kind of the one that has waited longest, as {@code date changed}
     * @param recipient of that one, in one line
     * @param back whether it came back; else it could not be sent
     * @param since when that was
     */
    public record Undelivered(
            long referral, int letters, String kind, String recipient, boolean back, LocalDate since) {}

    /** Referrals with letters that came back or could not be sent, and that nobody has sent on their way again. */
    public List<Undelivered> undelivered(ZoneId zone) {
        return jdbc.sql("""
                select distinct on (l.referral) l.referral, count(*) over (partition by l.referral) as letters,
                       lower(replace(l.kind, '_', ' ')) as kind, split_part(l.recipient, E'\n', 1) as recipient,
                       o.state = 'BOUNCED' as back, o.at
                from outbox o join letter l on l.id = o.letter
                where o.state in ('BOUNCED', 'FAILED')
                order by l.referral, o.at, o.id
                """)
                .query((row, number) -> new Undelivered(
                        row.getLong("referral"),
                        row.getInt("letters"),
                        row.getString("kind"),
                        row.getString("recipient"),
                        row.getBoolean("back"),
                        row.getObject("at", OffsetDateTime.class)
                                .atZoneSameInstant(zone)
                                .toLocalDate()))
                .list();
    }

    /**
     * What all counts of changes belong to: the database, and how often something has changed that concerns every
     * referral. A backup that was put in the database's place counts its changes anew, and so has another value here.
     */
    public String ground() {
        return jdbc.sql("""
                select concat_ws(
                    ' ',
                    (select oid from pg_database where datname = current_database()),
                    pg_postmaster_start_time(),
                    (select coalesce(sum(changes), 0) from change_count where referral = 0))
                """).query(String.class).single();
    }
}
