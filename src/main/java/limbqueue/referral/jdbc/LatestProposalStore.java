package limbqueue.referral.jdbc;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import limbqueue.triage.Tier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Keeps which rules the latest proposal of each referral rests on, and counts them. */
@Repository
public class LatestProposalStore {

    /**
     * A referral before a physician or decided of which no proposal is kept, or one in the queue without its tier.
     *
     * @param asOf the day of its decision
     */
    public record Unproposed(long id, String document, Optional<LocalDate> asOf) {}

    private final JdbcClient jdbc;

    LatestProposalStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Puts a proposal in the place of the one before it. */
    public void keep(long referral, LocalDate asOf, String policy, String ruleBook, Set<String> rules, Tier tier) {
        jdbc.sql("""
                insert into latest_proposal (referral, as_of, policy, rule_book, rules, tier)
                values (:referral, :asOf, :policy, :ruleBook, :rules, :tier)
                on conflict (referral) do update
                set as_of = excluded.as_of, policy = excluded.policy, rule_book = excluded.rule_book, rules = excluded.rules,
                    tier = excluded.tier
                """)
                .param("referral", referral)
                .param("asOf", asOf)
                .param("policy", policy)
                .param("ruleBook", ruleBook)
                .param("rules", rules.toArray(String[]::new))
                .param("tier", tier.name())
                .update();
    }

    public List<Unproposed> without(int limit) {
        return jdbc.sql("""
                select r.id, coalesce(d.document, r.document)::text as document, d.as_of
                from referral r left join decision d on d.id = r.decision
                where r.state <> 'DRAFT'
                      and not exists (
                          select from latest_proposal p
                          where p.referral = r.id and (p.tier is not null or r.state <> 'QUEUED'))
                order by r.id
                limit :limit
                """)
                .param("limit", limit)
                .query((row, number) -> new Unproposed(
                        row.getLong("id"),
                        row.getString("document"),
                        Optional.ofNullable(row.getObject("as_of", LocalDate.class))))
                .list();
    }

    /** In how many referrals each rule speaks; a rule that speaks in none is not among them. */
    public Map<String, Integer> firings() {
        var firings = new TreeMap<String, Integer>();
        jdbc.sql("""
                select rule, referrals
                from rule_firing
                where referrals > 0
                """).query(row -> {
            firings.put(row.getString("rule"), row.getInt("referrals"));
        });
        return firings;
    }

    /** How many referrals a proposal is kept of. */
    public int referrals() {
        return jdbc.sql("select count(*) from latest_proposal")
                .query(Integer.class)
                .single();
    }
}
