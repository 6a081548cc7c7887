package limbqueue.referral.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.Person;
import limbqueue.referral.Referral;
import limbqueue.referral.SecondLook;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult;
import limbqueue.triage.TriageResult.Rutherford;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Keeps what is before a second physician, and the answers. */
@Repository
public class SecondLookStore {

    private final JdbcClient jdbc;

    SecondLookStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Whether a physician other than the one with this account can sign in. */
    public boolean anotherPhysician(long account) {
        return jdbc.sql("select exists (select from account where role = 'PHYSICIAN' and active and id <> :account)")
                .param("account", account)
                .query(Boolean.class)
                .single();
    }

    /** @param waiting the referral, at the version at which the look can be answered */
    public SecondLook ask(
            Referral waiting,
            Tier tier,
            Map<Side, Rutherford> categories,
            String reason,
            TriageResult proposal,
            List<String> against,
            Person first,
            Instant at) {
        var id = jdbc.sql("""
                insert into second_look (referral, version, account, author, at, proposed_tier, tier, left_category,
                                         right_category, reason, against)
                values (:referral, :version, :account, :author, :at, :proposedTier, :tier, :left, :right, :reason, :against)
                returning id
                """)
                .param("referral", waiting.id())
                .param("version", waiting.version())
                .param("account", first.id())
                .param("author", first.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("proposedTier", proposal.urgency().tier().name())
                .param("tier", tier.name())
                .param("left", ReferralStore.name(categories.get(Side.LEFT)))
                .param("right", ReferralStore.name(categories.get(Side.RIGHT)))
                .param("reason", reason)
                .param("against", against.toArray(String[]::new))
                .query(Long.class)
                .single();
        return new SecondLook(
                id,
                waiting.id(),
                waiting.version(),
                first.id(),
                first.displayName(),
                at,
                proposal.urgency().tier(),
                tier,
                categories,
                reason,
                against,
                Optional.empty());
    }

    /** The look that the referral waits for, or the one answered with no that nothing has followed. */
    public Optional<SecondLook> latest(long referral) {
        return jdbc.sql("""
                select l.id, l.referral, l.version, l.account, l.author, l.at, l.proposed_tier, l.tier, l.left_category,
                       l.right_category, l.reason, l.against, a.author as second, a.at as answered_at, a.agreed, a.words
                from second_look l join referral r on r.id = l.referral
                     left join second_look_answer a on a.second_look = l.id
                where l.referral = :referral and r.state = 'QUEUED'
                      and r.version = l.version + case when a.second_look is null then 0 else 1 end
                      and (a.agreed is null or not a.agreed)
                """)
                .param("referral", referral)
                .query(SecondLookStore::look)
                .optional();
    }

    /** Referrals that wait for a second physician. */
    public Set<Long> waiting() {
        return new HashSet<>(jdbc.sql("""
                select l.referral
                from second_look l join referral r on r.id = l.referral and r.version = l.version
                where r.state = 'QUEUED' and r.part_of is null
                """).query(Long.class).list());
    }

    /** @param decision what the agreement led to; empty where the second physician does not agree */
    public void answer(long look, Person second, Instant at, String words, Optional<Long> decision) {
        jdbc.sql("""
                insert into second_look_answer (second_look, account, author, at, agreed, words, decision)
                values (:look, :account, :author, :at, :agreed, :words, :decision)
                """)
                .param("look", look)
                .param("account", second.id())
                .param("author", second.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .param("agreed", decision.isPresent())
                .param("words", words)
                .param("decision", decision.orElse(null))
                .update();
    }

    private static SecondLook look(ResultSet row, int number) throws SQLException {
        var answered = row.getObject("answered_at", OffsetDateTime.class);
        return new SecondLook(
                row.getLong("id"),
                row.getLong("referral"),
                row.getInt("version"),
                row.getLong("account"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant(),
                Tier.valueOf(row.getString("proposed_tier")),
                Tier.valueOf(row.getString("tier")),
                ReferralStore.categories(row),
                row.getString("reason"),
                List.of((String[]) row.getArray("against").getArray()),
                answered == null
                        ? Optional.empty()
                        : Optional.of(new SecondLook.Answer(
                                row.getString("second"),
                                answered.toInstant(),
                                row.getBoolean("agreed"),
                                row.getString("words"))));
    }
}
