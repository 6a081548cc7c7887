package limbqueue.referral.jdbc;

import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Holds who saw which version of a referral when. */
@Repository
public class SeenStore {

    private final JdbcClient jdbc;

    SeenStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** A version as somebody saw it. */
    public record Sight(Instant at, LocalDate asOf, String policy, String document) {}

    /** What {@code account} saw last that was not this version on this day by this policy. */
    public Optional<Sight> before(long account, long referral, int version, LocalDate asOf, String policy) {
        return jdbc.sql("""
                select s.at, s.as_of, s.policy,
                       (select v.document::text from referral_revision v
                        where v.referral = s.referral and v.version <= s.version
                        order by v.version desc limit 1) as document
                from referral_seen s
                where s.account = :account and s.referral = :referral
                      and (s.version, s.as_of, s.policy) is distinct from (:version, cast(:asOf as date), :policy)
                order by s.id desc
                limit 1
                """)
                .param("account", account)
                .param("referral", referral)
                .param("version", version)
                .param("asOf", asOf)
                .param("policy", policy)
                .query((row, number) -> new Sight(
                        row.getObject("at", OffsetDateTime.class).toInstant(),
                        row.getObject("as_of", LocalDate.class),
                        row.getString("policy"),
                        row.getString("document")))
                .optional();
    }

    /** Keeps when {@code account} first saw this version on this day by this policy. */
    public void keep(long account, long referral, int version, LocalDate asOf, String policy, Instant at) {
        jdbc.sql("""
                insert into referral_seen (referral, version, account, as_of, policy, at)
                values (:referral, :version, :account, :asOf, :policy, :at)
                on conflict do nothing
                """)
                .param("referral", referral)
                .param("version", version)
                .param("account", account)
                .param("asOf", asOf)
                .param("policy", policy)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }
}
