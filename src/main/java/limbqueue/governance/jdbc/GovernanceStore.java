package limbqueue.governance.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import limbqueue.governance.Course;
import limbqueue.governance.Haste;
import limbqueue.governance.Judgement;
import limbqueue.preparation.CaseOutcome;
import limbqueue.triage.Tier;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads what the figures are counted from. */
@Repository
public class GovernanceStore {

    /** The words of a decision, with the names that must not be shown. */
    public record Typed(long decision, String reason, String given, String family) {}

    private static final int ROWS_AT_A_TIME = 2_000;

    private final JdbcClient jdbc;

    GovernanceStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Decisions made from {@code from} on and before {@code before}, and not taken back, that say whether a proposal was right. */
    public List<Judgement> judgements(Instant from, Instant before, ZoneId zone) {
        return jdbc.sql("""
                select decision, at, account, author, proposed_tier, tier, rules,
                       kind = 'APPROVED' or (kind = 'SENT_TO_HOSPITAL' and proposed_tier = 'SAME_DAY') as agrees
                from decision_fact
                where kind in ('APPROVED', 'CHANGED', 'SENT_TO_HOSPITAL') and at >= :from and at < :before
                      and not exists (select from decision_taken_back t where t.decision = decision_fact.decision)
                order by at, decision
                """)
                .param("from", from.atOffset(ZoneOffset.UTC))
                .param("before", before.atOffset(ZoneOffset.UTC))
                .withFetchSize(ROWS_AT_A_TIME)
                .query((row, number) -> new Judgement(
                        row.getLong("decision"),
                        instant(row, "at").atZone(zone).toLocalDate(),
                        row.getLong("account"),
                        row.getString("author"),
                        Tier.valueOf(row.getString("proposed_tier")),
                        Tier.valueOf(row.getString("tier")),
                        row.getBoolean("agrees"),
                        strings(row, "rules")))
                .list();
    }

    /**
     * What became of each referral that was approved, changed or sent to hospital before {@code before}, by the last such
     * decision: those that ended from {@code since} on, and those that have not ended and still stand as decided.
     */
    public List<Course> courses(Instant since, Instant before, ZoneId zone) {
        return jdbc.sql("""
                select f.kind, f.at, f.tier, f.target_date, f.waiting_since, f.received, f.red_flags, f.born, f.sex, f.referrer,
                       f.haste, c.outcome, coalesce(b.ready_at, c.at) as done_at
                from (
                    select distinct on (referral) *
                    from decision_fact
                    where kind in ('APPROVED', 'CHANGED', 'SENT_TO_HOSPITAL') and at < :before
                          and not exists (select from decision_taken_back t where t.decision = decision_fact.decision)
                    order by referral, at desc, decision desc
                ) f
                join referral r on r.id = f.referral
                left join recorded_case c on c.referral = f.referral and f.kind <> 'SENT_TO_HOSPITAL'
                left join procedure_booking b on b.referral = c.referral
                where case when f.kind = 'SENT_TO_HOSPITAL' then f.at >= :since
                           when c.referral is null then r.decision = f.decision
                           else coalesce(b.ready_at, c.at) >= :since end
                """)
                .param("since", since.atOffset(ZoneOffset.UTC))
                .param("before", before.atOffset(ZoneOffset.UTC))
                .withFetchSize(ROWS_AT_A_TIME)
                .query((row, number) -> course(row, zone))
                .list();
    }

    /** The reasons of these decisions, in no order. */
    public List<Typed> reasons(Collection<Long> decisions) {
        return jdbc.sql("""
                select id, reason,
                       case when readable then coalesce(document #>> '{patient,given}', '') else '' end as given,
                       case when readable then coalesce(document #>> '{patient,family}', '') else '' end as family
                from decision cross join lateral (select position('\\u0000' in document::text) = 0) as text (readable)
                where id = any (:ids)
                """)
                .param("ids", decisions.toArray(Long[]::new))
                .query((row, number) -> new Typed(
                        row.getLong("id"), row.getString("reason"), row.getString("given"), row.getString("family")))
                .list();
    }

    private static Course course(ResultSet row, ZoneId zone) throws SQLException {
        var decided = instant(row, "at").atZone(zone).toLocalDate();
        var outcome = Optional.ofNullable(row.getString("outcome")).map(CaseOutcome::valueOf);
        var ended = row.getString("kind").equals("SENT_TO_HOSPITAL")
                ? Optional.of(decided)
                : Optional.ofNullable(row.getObject("done_at", OffsetDateTime.class))
                        .map(at -> at.toInstant().atZone(zone).toLocalDate());
        var hasty = row.getBoolean("haste");
        var haste = row.wasNull() ? Haste.NOT_TOLD : hasty ? Haste.ASKED : Haste.NOT_ASKED;
        return new Course(
                Tier.valueOf(row.getString("tier")),
                decided,
                row.getObject("waiting_since", LocalDate.class),
                Optional.ofNullable(row.getObject("target_date", LocalDate.class)),
                ended,
                outcome,
                strings(row, "red_flags"),
                row.getObject("received", LocalDate.class),
                Optional.ofNullable(row.getObject("born", LocalDate.class)),
                Optional.ofNullable(row.getString("sex")),
                Optional.ofNullable(row.getString("referrer")),
                haste);
    }

    private static List<String> strings(ResultSet row, String column) throws SQLException {
        return Arrays.asList((String[]) row.getArray(column).getArray());
    }

    private static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }
}
