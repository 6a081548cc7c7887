package limbqueue.timetable.jdbc;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Map;
import java.util.stream.Collectors;
import limbqueue.access.Person;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and keeps who has said that they can come at short notice. */
@Repository
public class ShortNoticeStore {

    private final JdbcClient jdbc;

    ShortNoticeStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The last answer of each of these referrals that gave one. */
    public Map<Long, Boolean> answers(Collection<Long> referrals) {
        record Answer(long referral, boolean canCome) {}
        return jdbc
                .sql("""
                        select distinct on (referral) referral, can_come
                        from short_notice
                        where referral = any (:referrals)
                        order by referral, id desc
                        """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query((row, number) -> new Answer(row.getLong("referral"), row.getBoolean("can_come")))
                .list()
                .stream()
                .collect(Collectors.toMap(Answer::referral, Answer::canCome));
    }

    public void answer(long referral, boolean canCome, Person author, Instant at) {
        jdbc.sql("""
                insert into short_notice (referral, can_come, account, author, at)
                values (:referral, :canCome, :account, :author, :at)
                """)
                .param("referral", referral)
                .param("canCome", canCome)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }
}
