package limbqueue.referral.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.referral.DecisionKind;
import limbqueue.referral.DecisionRecord;
import limbqueue.referral.Referral;
import limbqueue.referral.ReferralState;
import limbqueue.referral.Reopening;
import limbqueue.triage.Side;
import limbqueue.triage.Tier;
import limbqueue.triage.TriageResult.Rutherford;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes whole referrals with everything that is kept about them. */
@Repository
public class ReferralStore {

    private final JdbcClient jdbc;

    ReferralStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The next number of {@code year}, from 1. Whoever asks second waits for the first to commit, so none is skipped. */
    public int nextNumber(int year) {
        return jdbc.sql("""
                insert into referral_number as n (year, last)
                values (:year, 1)
                on conflict (year) do update set last = n.last + 1
                returning last
                """).param("year", year).query(Integer.class).single();
    }

    public boolean referenceTaken(String reference) {
        return jdbc.sql("""
                select exists (select 1 from referral where reference = :reference)
                """).param("reference", reference).query(Boolean.class).single();
    }

    /** Whether this referral is part of another, and so rests. */
    public boolean isPart(long id) {
        return jdbc.sql("select exists (select from referral where id = :id and part_of is not null)")
                .param("id", id)
                .query(Boolean.class)
                .single();
    }

    /** Adds a draft at version 1. */
    public Referral add(String reference, LocalDate received, String document, Person author, Instant at) {
        var referral = jdbc.sql("""
                insert into referral (reference, state, received, document, saved_by, saved_at)
                values (:reference, 'DRAFT', :received, cast(:document as json), :author, :at)
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("reference", reference)
                .param("received", received)
                .param("document", document)
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(ReferralStore::referral)
                .single();
        addRevision(referral.id(), Optional.empty(), Optional.of(1), ReferralState.DRAFT, document, false, author, at);
        return referral;
    }

    public Optional<Referral> find(long id) {
        return jdbc.sql("""
                select id, version, reference, state, received, document::text as document, saved_by, saved_at, submitted_at
                from referral
                where id = :id
                """).param("id", id).query(ReferralStore::referral).optional();
    }

    /** As {@link #find}, and nobody else changes it before this transaction ends. */
    public Optional<Referral> findLocked(long id) {
        return jdbc.sql("""
                select id, version, reference, state, received, document::text as document, saved_by, saved_at, submitted_at
                from referral
                where id = :id
                for update
                """).param("id", id).query(ReferralStore::referral).optional();
    }

    /**
     * Saves over {@code version} and keeps the document as a revision.
     *
     * @return the referral as saved, or nothing if it is no longer at that version or no longer open
     */
    public Optional<Referral> save(
            long id, int version, LocalDate received, String document, Person author, Instant at) {
        var saved = jdbc.sql("""
                update referral
                set version = version + 1, received = :received, document = cast(:document as json), saved_by = :author,
                    saved_at = :at
                where id = :id and version = :version and state in ('DRAFT', 'INFORMATION_NEEDED', 'QUEUED')
                      and part_of is null
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", id)
                .param("version", version)
                .param("received", received)
                .param("document", document)
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(ReferralStore::referral)
                .optional();
        saved.ifPresent(referral -> addRevision(
                id,
                Optional.of(version),
                Optional.of(referral.version()),
                referral.state(),
                document,
                false,
                author,
                at));
        return saved;
    }

    /**
     * Saves a document with results over {@code version} and keeps it as a revision.
     *
     * @param state where the referral stands with them: where it stood, or before the physician again
     * @return the referral as saved, or nothing if it is no longer at that version
     */
    public Optional<Referral> enterResults(
            long id, int version, ReferralState state, LocalDate received, String document, Person author, Instant at) {
        var entered = jdbc.sql("""
                update referral
                set version = version + 1, state = :state, received = :received, document = cast(:document as json),
                    saved_by = :author, saved_at = :at,
                    decision = case when cast(:state as text) = 'QUEUED' then null else decision end
                where id = :id and version = :version
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", id)
                .param("version", version)
                .param("state", state.name())
                .param("received", received)
                .param("document", document)
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(ReferralStore::referral)
                .optional();
        entered.ifPresent(referral -> addRevision(
                id,
                Optional.of(version),
                Optional.of(referral.version()),
                referral.state(),
                document,
                true,
                author,
                at));
        return entered;
    }

    /** Keeps that a referral goes back before the physician. */
    public void add(Reopening reopening, Person author) {
        jdbc.sql("""
                insert into reopening (referral, version, decision, changes, account, author, at)
                values (:referral, :version, :decision, :changes, :account, :author, :at)
                """)
                .param("referral", reopening.referralId())
                .param("version", reopening.version())
                .param("decision", reopening.decisionId())
                .param("changes", reopening.changes().toArray(String[]::new))
                .param("account", author.id())
                .param("author", reopening.author())
                .param("at", reopening.at().atOffset(ZoneOffset.UTC))
                .update();
    }

    /** Why a queued referral is before the physician again, if its latest decision fell. */
    public Optional<Reopening> reopening(long referralId) {
        return jdbc.sql("""
                select o.referral, o.version, o.decision, o.changes, o.author, o.at
                from reopening o join referral r on r.id = o.referral
                where o.referral = :referral and r.state = 'QUEUED'
                      and not exists (
                          select from decision d
                          where d.referral = o.referral and d.id > o.decision
                                and not exists (select from decision_taken_back t where t.decision = d.id))
                      and not exists (select from submission s where s.referral = o.referral and s.version > o.version)
                """)
                .param("referral", referralId)
                .query((row, number) -> new Reopening(
                        row.getLong("referral"),
                        row.getInt("version"),
                        row.getLong("decision"),
                        List.of((String[]) row.getArray("changes").getArray()),
                        row.getString("author"),
                        row.getObject("at", OffsetDateTime.class).toInstant()))
                .optional();
    }

    /** Keeps a document that could not be saved since somebody else saved first. */
    public void keepOvertaken(long id, int madeOn, ReferralState state, String document, Person author, Instant at) {
        addRevision(id, Optional.of(madeOn), Optional.empty(), state, document, false, author, at);
    }

    /**
     * Queues a referral at {@code version} and keeps who did it.
     *
     * @return the referral as queued, or nothing if it is no longer at that version or not waiting to be submitted
     */
    public Optional<Referral> submit(long id, int version, Person author, Instant at) {
        var submitted = jdbc.sql("""
                update referral
                set version = version + 1, state = 'QUEUED', submitted_at = :at, decision = null
                where id = :id and version = :version and state in ('DRAFT', 'INFORMATION_NEEDED') and part_of is null
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", id)
                .param("version", version)
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(ReferralStore::referral)
                .optional();
        submitted.ifPresent(referral -> jdbc.sql("""
                insert into submission (referral, version, account, author, at)
                values (:referral, :version, :account, :author, :at)
                """)
                .param("referral", id)
                .param("version", referral.version())
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update());
        return submitted;
    }

    /**
     * Adds a decision of {@code author}; its id is given by the database.
     *
     * @param version the version of the referral decided on
     */
    public DecisionRecord add(DecisionRecord decision, int version, Person author) {
        var id = jdbc.sql("""
                insert into decision (referral, version, kind, account, author, at, policy, rule_book, as_of, document, proposal,
                                      proposed_tier, tier, target_date, left_category, right_category, reason)
                values (:referral, :version, :kind, :account, :author, :at, :policy, :ruleBook, :asOf, cast(:document as json),
                        cast(:proposal as json), :proposedTier, :tier, :targetDate, :leftCategory, :rightCategory, :reason)
                returning id
                """)
                .param("referral", decision.referralId())
                .param("version", version)
                .param("kind", decision.kind().name())
                .param("account", author.id())
                .param("author", decision.author())
                .param("at", decision.at().atOffset(ZoneOffset.UTC))
                .param("policy", decision.policy())
                .param("ruleBook", decision.ruleBook().orElse(null))
                .param("asOf", decision.asOf())
                .param("document", decision.document())
                .param("proposal", decision.proposal())
                .param("proposedTier", decision.proposedTier().name())
                .param("tier", decision.tier().name())
                .param("targetDate", decision.targetDate().orElse(null))
                .param("leftCategory", name(decision.categories().get(Side.LEFT)))
                .param("rightCategory", name(decision.categories().get(Side.RIGHT)))
                .param("reason", decision.reason())
                .query(Long.class)
                .single();
        return new DecisionRecord(
                id,
                decision.referralId(),
                decision.kind(),
                decision.author(),
                decision.at(),
                decision.policy(),
                decision.ruleBook(),
                decision.asOf(),
                decision.document(),
                decision.proposal(),
                decision.proposedTier(),
                decision.tier(),
                decision.targetDate(),
                decision.categories(),
                decision.reason());
    }

    /**
     * Puts a queued referral at {@code version} where a decision wants it.
     *
     * @return the referral as settled, or nothing if it is no longer queued at that version
     */
    public Optional<Referral> settle(long id, int version, ReferralState state, long decision) {
        return jdbc.sql("""
                update referral
                set version = version + 1, state = :state, decision = :decision
                where id = :id and version = :version and state = 'QUEUED'
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", id)
                .param("version", version)
                .param("state", state.name())
                .param("decision", decision)
                .query(ReferralStore::referral)
                .optional();
    }

    /** Decisions on one referral that were not taken back, newest first. */
    public List<DecisionRecord> decisions(long referralId) {
        return jdbc.sql("""
                select id, referral, kind, author, at, policy, rule_book, as_of, document::text as document,
                       proposal::text as proposal, proposed_tier, tier, target_date, left_category, right_category, reason
                from decision
                where referral = :referral
                      and not exists (select from decision_taken_back t where t.decision = decision.id)
                order by id desc
                """)
                .param("referral", referralId)
                .query(ReferralStore::decision)
                .list();
    }

    /** The newest decision on {@code version} of a referral or on a later one. */
    public Optional<DecisionRecord> decidedSince(long referralId, int version) {
        return jdbc.sql("""
                select id, referral, kind, author, at, policy, rule_book, as_of, document::text as document,
                       proposal::text as proposal, proposed_tier, tier, target_date, left_category, right_category, reason
                from decision
                where referral = :referral and version >= :version
                      and not exists (select from decision_taken_back t where t.decision = decision.id)
                order by id desc
                limit 1
                """)
                .param("referral", referralId)
                .param("version", version)
                .query(ReferralStore::decision)
                .optional();
    }

    /** Whether a decision is the one that put its referral where it stands. */
    public boolean stands(long decision) {
        return jdbc.sql("""
                select exists (
                    select from referral r join decision d on d.referral = r.id
                    where d.id = :decision and r.decision = d.id)
                """).param("decision", decision).query(Boolean.class).single();
    }

    /** Id of the account that decided. */
    public long decidedBy(long decision) {
        return jdbc.sql("select account from decision where id = :decision")
                .param("decision", decision)
                .query(Long.class)
                .single();
    }

    /** Undoes what a decision came to, and keeps who took it back. */
    public Referral takeBack(Referral before, long decision, Person author, Instant at) {
        jdbc.sql("""
                insert into decision_taken_back (referral, version, decision, account, author, at)
                values (:referral, :version, :decision, :account, :author, :at)
                """)
                .param("referral", before.id())
                .param("version", before.version() + 1)
                .param("decision", decision)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
        return jdbc.sql("""
                update referral
                set version = version + 1, state = 'QUEUED', decision = null
                where id = :id and version = :version
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", before.id())
                .param("version", before.version())
                .query(ReferralStore::referral)
                .single();
    }

    /**
     * Moves a queued referral on by a version and changes nothing, so that whoever decides on what was there before is told.
     *
     * @return the referral, or nothing if it is no longer queued at that version
     */
    public Optional<Referral> touch(long id, int version) {
        return jdbc.sql("""
                update referral
                set version = version + 1
                where id = :id and version = :version and state = 'QUEUED' and part_of is null
                returning id, version, reference, state, received, document::text as document, saved_by, saved_at,
                          submitted_at
                """)
                .param("id", id)
                .param("version", version)
                .query(ReferralStore::referral)
                .optional();
    }

    /** The decision with this id. */
    public Optional<DecisionRecord> decision(long id) {
        return jdbc.sql("""
                select id, referral, kind, author, at, policy, rule_book, as_of, document::text as document,
                       proposal::text as proposal, proposed_tier, tier, target_date, left_category, right_category, reason
                from decision
                where id = :id
                """).param("id", id).query(ReferralStore::decision).optional();
    }

    private void addRevision(
            long referral,
            Optional<Integer> madeOn,
            Optional<Integer> version,
            ReferralState state,
            String document,
            boolean results,
            Person author,
            Instant at) {
        jdbc.sql("""
                insert into referral_revision (referral, made_on, version, won, state, document, results, account, author,
                                               saved_at)
                values (:referral, :madeOn, :version, :won, :state, cast(:document as json), :results, :account, :author, :at)
                """)
                .param("results", results)
                .param("referral", referral)
                .param("madeOn", madeOn.orElse(null))
                .param("version", version.orElse(null))
                .param("won", version.isPresent())
                .param("state", state.name())
                .param("document", document)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    static Referral referral(ResultSet row, int number) throws SQLException {
        return new Referral(
                row.getLong("id"),
                row.getInt("version"),
                row.getString("reference"),
                ReferralState.valueOf(row.getString("state")),
                row.getObject("received", LocalDate.class),
                row.getString("document"),
                row.getString("saved_by"),
                row.getObject("saved_at", OffsetDateTime.class).toInstant(),
                Optional.ofNullable(row.getObject("submitted_at", OffsetDateTime.class))
                        .map(OffsetDateTime::toInstant));
    }

    private static DecisionRecord decision(ResultSet row, int number) throws SQLException {
        return new DecisionRecord(
                row.getLong("id"),
                row.getLong("referral"),
                DecisionKind.valueOf(row.getString("kind")),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant(),
                row.getString("policy"),
                Optional.ofNullable(row.getString("rule_book")),
                row.getObject("as_of", LocalDate.class),
                row.getString("document"),
                row.getString("proposal"),
                Tier.valueOf(row.getString("proposed_tier")),
                Tier.valueOf(row.getString("tier")),
                Optional.ofNullable(row.getObject("target_date", LocalDate.class)),
                categories(row),
                row.getString("reason"));
    }

    static Map<Side, Rutherford> categories(ResultSet row) throws SQLException {
        var categories = new EnumMap<Side, Rutherford>(Side.class);
        var left = row.getString("left_category");
        if (left != null) {
            categories.put(Side.LEFT, Rutherford.valueOf(left));
        }
        var right = row.getString("right_category");
        if (right != null) {
            categories.put(Side.RIGHT, Rutherford.valueOf(right));
        }
        return Map.copyOf(categories);
    }

    static @Nullable String name(@Nullable Rutherford category) {
        return category == null ? null : category.name();
    }
}
