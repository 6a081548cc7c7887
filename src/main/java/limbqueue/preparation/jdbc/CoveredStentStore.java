package limbqueue.preparation.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.preparation.CoveredStent;
import limbqueue.preparation.StentConfirmation;
import limbqueue.triage.ReferralDocument.Segment;
import limbqueue.triage.Side;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes the stock of covered stents, and which of them are confirmed in the room. */
@Repository
public class CoveredStentStore {

    private final JdbcClient jdbc;

    CoveredStentStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Every covered stent, in order of diameter, length and expiry; those used up among them. */
    public List<CoveredStent> all() {
        return jdbc.sql("""
                select s.id, s.version, s.diameter_mm, s.length_mm, s.sheath_french, s.expires, s.lot, s.place, s.count,
                       s.author, s.at,
                       (select count(*) from stent_confirmation c
                        where c.covered_stent = s.id and c.withdrawn_at is null
                              and exists (select from referral r
                                          where r.id = c.referral and r.state in ('QUEUED', 'INFORMATION_NEEDED', 'APPROVED'))
                              and not exists (select from recorded_case r where r.referral = c.referral)) as promised
                from covered_stent s
                order by s.diameter_mm, s.length_mm, s.expires, s.id
                """).query(CoveredStentStore::stent).list();
    }

    /** The covered stent with this id, and nobody else changes or confirms it before this transaction ends. */
    public Optional<CoveredStent> findLocked(long id) {
        // Counted in a statement of its own: one that waited for the lock would still count what it saw before it
        // waited.
        var there = jdbc.sql("select id from covered_stent where id = :id for update")
                .param("id", id)
                .query(Long.class)
                .optional();
        return there.flatMap(
                locked -> all().stream().filter(stent -> stent.id() == locked).findFirst());
    }

    /**
     * Adds stents of one size and lot in one place.
     *
     * @return false if that lot of that size is there already
     */
    public boolean add(
            double diameterMm,
            double lengthMm,
            int sheathFrench,
            LocalDate expires,
            String lot,
            String place,
            int count,
            Person author,
            Instant at) {
        return jdbc.sql("""
                        insert into covered_stent (diameter_mm, length_mm, sheath_french, expires, lot, place, count, account,
                                                   author, at)
                        values (:diameter, :length, :sheath, :expires, :lot, :place, :count, :account, :author, :at)
                        on conflict do nothing
                        """)
                        .param("diameter", diameterMm)
                        .param("length", lengthMm)
                        .param("sheath", sheathFrench)
                        .param("expires", expires)
                        .param("lot", lot)
                        .param("place", place)
                        .param("count", count)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /**
     * Sets how many there are of a stent at {@code version}.
     *
     * @return false if it is no longer at that version
     */
    public boolean count(long id, int version, int count, Person author, Instant at) {
        return jdbc.sql("""
                        update covered_stent
                        set version = version + 1, count = :count, account = :account, author = :author, at = :at
                        where id = :id and version = :version
                        """)
                        .param("id", id)
                        .param("version", version)
                        .param("count", count)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** What is confirmed in the room for these referrals. */
    public List<StentConfirmation> confirmations(Collection<Long> referrals) {
        return jdbc.sql("""
                select c.id as confirmation, c.referral, c.side, c.segment, c.author as confirmed_by, c.at as confirmed_at,
                       s.id, s.version, s.diameter_mm, s.length_mm, s.sheath_french, s.expires, s.lot, s.place, s.count,
                       s.author, s.at,
                       (select count(*) from stent_confirmation o
                        where o.covered_stent = s.id and o.withdrawn_at is null
                              and exists (select from referral r
                                          where r.id = o.referral and r.state in ('QUEUED', 'INFORMATION_NEEDED', 'APPROVED'))
                              and not exists (select from recorded_case r where r.referral = o.referral)) as promised
                from stent_confirmation c join covered_stent s on s.id = c.covered_stent
                where c.referral = any (:referrals) and c.withdrawn_at is null
                order by c.id
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query((row, number) -> new StentConfirmation(
                        row.getLong("confirmation"),
                        row.getLong("referral"),
                        Optional.ofNullable(row.getString("side")).map(Side::valueOf),
                        Segment.valueOf(row.getString("segment")),
                        stent(row, number),
                        row.getString("confirmed_by"),
                        row.getObject("confirmed_at", OffsetDateTime.class).toInstant()))
                .list();
    }

    /** Keeps that somebody has seen a stent in the room; false if another is confirmed for that vessel. */
    public boolean confirm(long referral, Optional<Side> side, Segment segment, long stent, Person author, Instant at) {
        return jdbc.sql("""
                        insert into stent_confirmation (referral, side, segment, covered_stent, account, author, at)
                        values (:referral, :side, :segment, :stent, :account, :author, :at)
                        on conflict do nothing
                        """)
                        .param("referral", referral)
                        .param("side", side.map(Side::name).orElse(null))
                        .param("segment", segment.name())
                        .param("stent", stent)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** Withdraws what is confirmed for a vessel; false if nothing is. */
    public boolean withdraw(long referral, Optional<Side> side, Segment segment, String by, Instant at) {
        return jdbc.sql("""
                        update stent_confirmation
                        set withdrawn_by = :by, withdrawn_at = :at
                        where referral = :referral and side is not distinct from cast(:side as text) and segment = :segment and withdrawn_at is null
                        """)
                        .param("referral", referral)
                        .param("side", side.map(Side::name).orElse(null))
                        .param("segment", segment.name())
                        .param("by", by)
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    private static CoveredStent stent(ResultSet row, int number) throws SQLException {
        return new CoveredStent(
                row.getLong("id"),
                row.getInt("version"),
                row.getDouble("diameter_mm"),
                row.getDouble("length_mm"),
                row.getInt("sheath_french"),
                row.getObject("expires", LocalDate.class),
                row.getString("lot"),
                row.getString("place"),
                row.getInt("count"),
                row.getInt("promised"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
