package limbqueue.referral.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.triage.Tier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads what the lists show. */
@Repository
public class ReferralQuery {

    private final JdbcClient jdbc;

    ReferralQuery(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** A referral, with the decision that put it where it stands. */
    public record Row(Referral referral, Optional<Standing> decision) {}

    public record Standing(
            DecisionKind kind, LocalDate asOf, Tier proposedTier, Tier tier, Optional<LocalDate> targetDate) {}

    public enum Happening {
        ENTERED,
        SAVED,
        RESULTS,
        OVERTAKEN,
        REOPENED,
        SUBMITTED,
        DECIDED,
        TOOK_IN,
        TAKEN_IN,
        GAVE_BACK,
        GIVEN_BACK,
        ESCALATED,
        TAKEN,
        TAKEN_BACK,
        SECOND_LOOK,
        AGREED,
        NOT_AGREED,
        LETTER_SENT,
        LETTER_MARKED,
        LETTER_HELD,
        LETTER_RELEASED,
        LETTER_FAILED,
        LETTER_BOUNCED,
        LETTER_CORRECTED
    }

    /**
     * Something that happened.
     *
     * @param state where the referral stood when it was saved
     * @param decision of what kind, if it was a decision
     * @param reason the words given with the decision, or what changed after it, or the reference of the other referral
     */
    public record Event(
            Instant at,
            String who,
            Happening happening,
            Optional<ReferralState> state,
            Optional<DecisionKind> decision,
            Optional<Tier> tier,
            String reason) {}

    public List<Row> queued() {
        return jdbc.sql("""
                select r.id, r.version, r.reference, r.state, r.received, r.document::text as document, r.saved_by,
                       r.saved_at, r.submitted_at, d.kind, d.as_of, d.proposed_tier, d.tier, d.target_date
                from referral r left join decision d on d.id = r.decision
                where r.state = 'QUEUED' and r.part_of is null
                order by r.id
                """).query(ReferralQuery::row).list();
    }

    /** Those that are still to be decided, drafts too. */
    public List<Row> open() {
        return jdbc.sql("""
                select r.id, r.version, r.reference, r.state, r.received, r.document::text as document, r.saved_by,
                       r.saved_at, r.submitted_at, d.kind, d.as_of, d.proposed_tier, d.tier, d.target_date
                from referral r left join decision d on d.id = r.decision
                where r.state in ('DRAFT', 'QUEUED', 'INFORMATION_NEEDED') and r.part_of is null
                order by r.id
                """).query(ReferralQuery::row).list();
    }

    public List<Row> all() {
        return jdbc.sql("""
                select r.id, r.version, r.reference, r.state, r.received, r.document::text as document, r.saved_by,
                       r.saved_at, r.submitted_at, d.kind, d.as_of, d.proposed_tier, d.tier, d.target_date
                from referral r left join decision d on d.id = r.decision
                where r.part_of is null
                order by r.received desc, r.id desc
                """).query(ReferralQuery::row).list();
    }

    /** The referrals with these ids, in their order. */
    public List<Row> these(Collection<Long> ids) {
        return jdbc.sql("""
                select r.id, r.version, r.reference, r.state, r.received, r.document::text as document, r.saved_by,
                       r.saved_at, r.submitted_at, d.kind, d.as_of, d.proposed_tier, d.tier, d.target_date
                from referral r left join decision d on d.id = r.decision
                where r.id = any (:ids)
                order by r.id
                """)
                .param("ids", ids.toArray(Long[]::new))
                .query(ReferralQuery::row)
                .list();
    }

    /** What happened to one referral, newest first. */
    public List<Event> events(long referralId) {
        return jdbc.sql("""
                select at, who, happening, state, kind, tier, reason
                from (
                    select saved_at as at, author as who,
                           case when made_on is null then 'ENTERED' when results and won then 'RESULTS'
                                when won then 'SAVED' else 'OVERTAKEN' end as happening,
                           state, cast(null as text) as kind, cast(null as text) as tier, '' as reason, 1 as step, id
                    from referral_revision
                    where referral = :referral
                    union all
                    select at, author, 'SUBMITTED', null, null, null, '', 2, id
                    from submission
                    where referral = :referral
                    union all
                    select at, author, 'REOPENED', null, null, null, array_to_string(changes, ' '), 4, id
                    from reopening
                    where referral = :referral
                    union all
                    select at, author, 'DECIDED', null, kind, tier, reason, 3, id
                    from decision
                    where referral = :referral
                    union all
                    select m.at, m.author, 'TOOK_IN', null, null, null, p.reference, 5, m.id
                    from merging m join referral p on p.id = m.part
                    where m.whole = :referral
                    union all
                    select m.at, m.author, 'TAKEN_IN', null, null, null, w.reference, 5, m.id
                    from merging m join referral w on w.id = m.whole
                    where m.part = :referral
                    union all
                    select m.undone_at, m.undone_by, 'GAVE_BACK', null, null, null, p.reference, 6, m.id
                    from merging m join referral p on p.id = m.part
                    where m.whole = :referral and m.undone_at is not null
                    union all
                    select m.undone_at, m.undone_by, 'GIVEN_BACK', null, null, null, w.reference, 6, m.id
                    from merging m join referral w on w.id = m.whole
                    where m.part = :referral and m.undone_at is not null
                    union all
                    select escalated_at, 'LimbQueue', 'ESCALATED', null, null, null,
                           escalated_after || case when escalated_after = 1 then ' minute' else ' minutes' end
                           || ': asked of ' || escalated_to, 7, id
                    from same_day_case
                    where referral = :referral and escalated_at is not null
                    union all
                    select taken_at, taken_by, 'TAKEN', null, null, null, '', 8, id
                    from same_day_case
                    where referral = :referral and taken_at is not null
                    union all
                    select at, author, 'TAKEN_BACK', null, null, null, '', 9, id
                    from decision_taken_back
                    where referral = :referral
                    union all
                    select at, author, 'SECOND_LOOK', null, null, tier, reason, 10, id
                    from second_look
                    where referral = :referral
                    union all
                    select a.at, a.author, case when a.agreed then 'AGREED' else 'NOT_AGREED' end, null, null, l.tier,
                           a.words, 11, l.id
                    from second_look_answer a join second_look l on l.id = a.second_look
                    where l.referral = :referral
                    union all
                    select s.at, s.author,
                           case when s.state = 'SENT' and s.author <> 'LimbQueue' then 'LETTER_MARKED'
                                when s.state = 'TO_SEND' then 'LETTER_RELEASED'
                                else 'LETTER_' || s.state end,
                           null, null, null,
                           '“' || lower(replace(t.kind, '_', ' ')) || '”'
                           || case s.channel when 'EMAIL' then ' by e-mail to ' || s.address
                                             when 'FAX' then ' by fax to ' || s.address else ' by post' end
                           || case when s.why = '' then '' else ': ' || s.why end, 12, s.id
                    from outbox_step s join letter t on t.id = s.letter
                    where t.referral = :referral
                        and (s.state in ('SENT', 'FAILED', 'BOUNCED')
                             or s.state in ('HELD', 'TO_SEND') and s.author <> 'LimbQueue')
                    union all
                    select c.at, c.author, 'LETTER_CORRECTED', null, null, null,
                           '“' || lower(replace(t.kind, '_', ' ')) || '”', 13, c.id
                    from letter_correction c join letter t on t.id = c.letter
                    where t.referral = :referral
                ) event
                order by at desc, step desc, id desc
                """)
                .param("referral", referralId)
                .query(ReferralQuery::event)
                .list();
    }

    private static Row row(ResultSet row, int number) throws SQLException {
        var kind = row.getString("kind");
        return new Row(
                ReferralStore.referral(row, number),
                kind == null
                        ? Optional.empty()
                        : Optional.of(new Standing(
                                DecisionKind.valueOf(kind),
                                row.getObject("as_of", LocalDate.class),
                                Tier.valueOf(row.getString("proposed_tier")),
                                Tier.valueOf(row.getString("tier")),
                                Optional.ofNullable(row.getObject("target_date", LocalDate.class)))));
    }

    private static Event event(ResultSet row, int number) throws SQLException {
        return new Event(
                row.getObject("at", OffsetDateTime.class).toInstant(),
                row.getString("who"),
                Happening.valueOf(row.getString("happening")),
                Optional.ofNullable(row.getString("state")).map(ReferralState::valueOf),
                Optional.ofNullable(row.getString("kind")).map(DecisionKind::valueOf),
                Optional.ofNullable(row.getString("tier")).map(Tier::valueOf),
                row.getString("reason"));
    }
}
