package limbqueue.presence.jdbc;

import java.time.Duration;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import limbqueue.access.Role;
import limbqueue.presence.Onlooker;
import limbqueue.presence.OpenPage;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Keeps which pages are open. Times are the database's: the clocks of two servers differ. */
@Repository
public class OnlookerStore {

    private final JdbcClient jdbc;

    OnlookerStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Keeps that a page is open, or is so still. */
    public void keep(OpenPage page) {
        jdbc.sql("""
                insert into onlooker (page, referral, account, who, role, since, renewed_at)
                values (:page, :referral, :account, :who, :role, :since, clock_timestamp())
                on conflict (page) do update set renewed_at = clock_timestamp()
                """)
                .param("page", page.id())
                .param("referral", page.referral())
                .param("account", page.person().id())
                .param("who", page.person().displayName())
                .param("role", page.person().role().name())
                .param("since", page.since().atOffset(ZoneOffset.UTC))
                .update();
    }

    public void remove(UUID page) {
        jdbc.sql("delete from onlooker where page = :page").param("page", page).update();
    }

    /** Removes pages of which nothing was said for {@code silence}. */
    public void removeSilent(Duration silence) {
        jdbc.sql("delete from onlooker where renewed_at < clock_timestamp() - make_interval(secs => :seconds)")
                .param("seconds", silence.toSeconds())
                .update();
    }

    /** Who else has the referral open, the first first. */
    public List<Onlooker> others(long referral, long account) {
        return jdbc.sql("""
                select who, role, min(since) as since
                from onlooker
                where referral = :referral and account <> :account
                group by account, who, role
                order by min(since), who
                """)
                .param("referral", referral)
                .param("account", account)
                .query((row, number) -> new Onlooker(
                        row.getString("who"),
                        Role.valueOf(row.getString("role")),
                        row.getObject("since", OffsetDateTime.class).toInstant()))
                .list();
    }
}
