package limbqueue.prospect.jdbc;

import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.forecast.Arrivals.Received;
import limbqueue.triage.Tier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads which referrals came, as physicians decided on them. */
@Repository
public class ArrivalStore {

    private final JdbcClient jdbc;

    ArrivalStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The day on which the first referral came that was submitted; empty while there is none. */
    public Optional<LocalDate> first() {
        return jdbc.sql("select min(received) as first from referral where state <> 'DRAFT' and part_of is null")
                .query((row, number) -> Optional.ofNullable(row.getObject("first", LocalDate.class)))
                .single();
    }

    /**
     * Referrals received from {@code since} on whose last decision gave them a place in the queue of the procedure room, by the
     * tier decided.
     */
    public List<Received> approved(LocalDate since) {
        return jdbc.sql("""
                select received, tier
                from (
                    select distinct on (referral) referral, received, tier, kind
                    from decision_fact
                    where kind <> 'INFORMATION_ASKED'
                          and not exists (select from decision_taken_back t where t.decision = decision_fact.decision)
                    order by referral, at desc, decision desc
                ) f
                where kind in ('APPROVED', 'CHANGED') and tier not in ('SAME_DAY', 'ADVICE_ONLY') and received >= :since
                """)
                .param("since", since)
                .query((row, number) ->
                        new Received(row.getObject("received", LocalDate.class), Tier.valueOf(row.getString("tier"))))
                .list();
    }

    /** The day from which the wait of each of these referrals counts, by its id; one without a decision is not in it. */
    public Map<Long, LocalDate> waitingSince(Collection<Long> referrals) {
        record Row(long referral, LocalDate since) {}
        return jdbc
                .sql("""
                        select distinct on (referral) referral, waiting_since
                        from decision_fact
                        where referral = any (:referrals)
                        order by referral, at desc, decision desc
                        """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query((row, number) ->
                        new Row(row.getLong("referral"), row.getObject("waiting_since", LocalDate.class)))
                .list()
                .stream()
                .collect(Collectors.toMap(Row::referral, Row::since));
    }
}
