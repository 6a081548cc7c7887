package limbqueue.referral.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import limbqueue.access.Person;
import limbqueue.referral.Move;
import limbqueue.referral.Move.Cause;
import limbqueue.referral.Placing;
import limbqueue.triage.Tier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Keeps the latest proposal of each referral, counts the rules that it rests on, and keeps what moved. */
@Repository
public class LatestProposalStore {

    /**
     * A referral before a physician or decided of which no proposal is kept, or one in the queue without its tier.
     *
     * @param asOf the day of its decision
     */
    public record Unproposed(long id, String document, Optional<LocalDate> asOf) {}

    /**
     * What is kept of a proposal.
     *
     * @param placing empty for one that was kept before placings were
     */
    public record Kept(LocalDate asOf, String policy, String ruleBook, Optional<Placing> placing) {}

    private final JdbcClient jdbc;

    LatestProposalStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    public Optional<Kept> find(long referral) {
        return jdbc.sql("""
                select as_of, policy, rule_book, tier, target_date, flags
                from latest_proposal
                where referral = :referral
                """)
                .param("referral", referral)
                .query((row, number) -> new Kept(
                        row.getObject("as_of", LocalDate.class),
                        row.getString("policy"),
                        row.getString("rule_book"),
                        row.getString("tier") == null
                                ? Optional.empty()
                                : Optional.of(placing(row, "tier", "target_date", "flags"))))
                .optional();
    }

    /** Puts a proposal in the place of the one before it. */
    public void keep(
            long referral, LocalDate asOf, String policy, String ruleBook, Set<String> rules, Placing placing) {
        jdbc.sql("""
                insert into latest_proposal (referral, as_of, policy, rule_book, rules, tier, target_date, flags)
                values (:referral, :asOf, :policy, :ruleBook, :rules, :tier, :targetDate, :flags)
                on conflict (referral) do update
                set as_of = excluded.as_of, policy = excluded.policy, rule_book = excluded.rule_book, rules = excluded.rules,
                    tier = excluded.tier, target_date = excluded.target_date, flags = excluded.flags
                """)
                .param("referral", referral)
                .param("asOf", asOf)
                .param("policy", policy)
                .param("ruleBook", ruleBook)
                .param("rules", rules.toArray(String[]::new))
                .param("tier", placing.tier().name())
                .param("targetDate", placing.targetDate().orElse(null))
                .param("flags", placing.flags().toArray(String[]::new))
                .update();
    }

    /** Waits until nobody else brings referrals to today; nobody else does before this transaction ends. */
    public void takeTurn() {
        jdbc.sql("select pg_advisory_xact_lock(hashtext('limbqueue: ageing'))").query(row -> {});
    }

    /** Ids of the referrals that wait for a decision and whose proposal was made on another day, or by something else. */
    public List<Long> behind(LocalDate today, String policy, String ruleBook) {
        return jdbc.sql("""
                select r.id
                from referral r join latest_proposal p on p.referral = r.id
                where r.state in ('QUEUED', 'INFORMATION_NEEDED') and r.part_of is null
                      and (p.as_of <> :today or p.policy <> :policy or p.rule_book <> :ruleBook or p.tier is null)
                order by r.id
                """)
                .param("today", today)
                .param("policy", policy)
                .param("ruleBook", ruleBook)
                .query((row, number) -> row.getLong("id"))
                .list();
    }

    /** The document of a referral that waits for a decision, which nobody else changes before this transaction ends. */
    public Optional<String> lockWaiting(long referral) {
        return jdbc.sql("""
                select document::text
                from referral
                where id = :referral and state in ('QUEUED', 'INFORMATION_NEEDED') and part_of is null
                for update
                """).param("referral", referral).query(String.class).optional();
    }

    /** Keeps that a proposal moved. Of a result, its author is who saved the referral last. */
    public void add(
            long referral, Cause cause, LocalDate asOf, String policy, Placing before, Placing after, Instant at) {
        jdbc.sql("""
                insert into proposal_move (referral, version, cause, author, as_of, policy, tier_before, tier_after,
                                           target_before, target_after, flags_before, flags_after, at)
                select id, version, :cause, case when :cause = 'RESULT' then saved_by end, :asOf, :policy, :tierBefore,
                       :tierAfter, cast(:targetBefore as date), cast(:targetAfter as date), :flagsBefore, :flagsAfter, :at
                from referral
                where id = :referral
                """)
                .param("referral", referral)
                .param("cause", cause.name())
                .param("asOf", asOf)
                .param("policy", policy)
                .param("tierBefore", before.tier().name())
                .param("tierAfter", after.tier().name())
                .param("targetBefore", before.targetDate().orElse(null))
                .param("targetAfter", after.targetDate().orElse(null))
                .param("flagsBefore", before.flags().toArray(String[]::new))
                .param("flagsAfter", after.flags().toArray(String[]::new))
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    /** Moves of referrals that wait, or of one of them, that no physician has seen or decided after; oldest first. */
    public List<Move> unseen(Optional<Long> referral) {
        return jdbc.sql("""
                select m.id, m.referral, m.cause, m.author, m.as_of, m.policy, m.tier_before, m.tier_after, m.target_before,
                       m.target_after, m.flags_before, m.flags_after, m.at
                from proposal_move m join referral r on r.id = m.referral
                where r.state in ('QUEUED', 'INFORMATION_NEEDED') and r.part_of is null
                      and (cast(:referral as bigint) is null or m.referral = :referral)
                      and not exists (select from move_seen s where s.move = m.id)
                      and not exists (select from decision d where d.referral = m.referral and d.version >= m.version)
                order by m.referral, m.id
                """)
                .param("referral", referral.orElse(null))
                .query(LatestProposalStore::move)
                .list();
    }

    /** Keeps that a physician has seen the moves of this referral up to that one. */
    public void seen(long referral, long upTo, Person physician, Instant at) {
        jdbc.sql("""
                insert into move_seen (move, referral, account, author, at)
                select id, referral, :account, :author, :at
                from proposal_move
                where referral = :referral and id <= :upTo
                on conflict (move) do nothing
                """)
                .param("referral", referral)
                .param("upTo", upTo)
                .param("account", physician.id())
                .param("author", physician.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
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

    private static Move move(ResultSet row, int number) throws SQLException {
        return new Move(
                row.getLong("id"),
                row.getLong("referral"),
                Cause.valueOf(row.getString("cause")),
                Optional.ofNullable(row.getString("author")),
                row.getObject("as_of", LocalDate.class),
                row.getString("policy"),
                placing(row, "tier_before", "target_before", "flags_before"),
                placing(row, "tier_after", "target_after", "flags_after"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }

    private static Placing placing(ResultSet row, String tier, String targetDate, String flags) throws SQLException {
        return new Placing(
                Tier.valueOf(row.getString(tier)),
                Optional.ofNullable(row.getObject(targetDate, LocalDate.class)),
                List.of((String[]) row.getArray(flags).getArray()));
    }
}
