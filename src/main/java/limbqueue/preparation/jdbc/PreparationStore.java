package limbqueue.preparation.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.preparation.CaseOutcome;
import limbqueue.preparation.CaseRecord;
import limbqueue.preparation.ProcedureBooking;
import limbqueue.preparation.ReadinessOverride;
import limbqueue.preparation.Standing;
import limbqueue.preparation.TrackedItem;
import limbqueue.preparation.TrackedStep;
import limbqueue.triage.plan.CaseFeatures;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes what is kept of the preparation of a case, but for its stents. */
@Repository
public class PreparationStore {

    /** Keeps the locks of this module apart from those of others. */
    private static final int LOCK = 6;

    private final JdbcClient jdbc;

    PreparationStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Whoever prepares this case waits here until whoever came first is done. */
    public void takeTurns(long referral) {
        jdbc.sql("""
                select cast(pg_advisory_xact_lock(:lock, :referral) as text)
                """)
                .param("lock", LOCK)
                .param("referral", Math.floorMod(referral, Integer.MAX_VALUE))
                .query(String.class)
                .single();
    }

    /** Referrals that are before a physician, wait for information or are approved, and whose case is not over. */
    public List<Long> underWay() {
        return jdbc.sql("""
                select r.id
                from referral r
                where r.state in ('QUEUED', 'INFORMATION_NEEDED', 'APPROVED') and r.part_of is null
                      and not exists (select from recorded_case c where c.referral = r.id)
                order by r.id
                """).query((row, number) -> row.getLong("id")).list();
    }

    /** The items of these referrals that somebody has touched, by referral and code. */
    public List<TrackedItem> items(Collection<Long> referrals) {
        return jdbc.sql("""
                select referral, code, version, what, state, asked_of, asked_on, chase_on, booked_for, booked_where, came_on,
                       reason, author, at
                from tracked_item
                where referral = any (:referrals)
                order by referral, code
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query(PreparationStore::item)
                .list();
    }

    /**
     * Puts an item where {@code item} says, over the version before its.
     *
     * @return false if it is no longer at that version
     */
    public boolean put(TrackedItem item, Person author) {
        var standing = new Columns(item.standing());
        var sql = item.version() == 1 ? """
                insert into tracked_item (referral, code, version, what, state, asked_of, asked_on, chase_on, booked_for,
                                          booked_where, came_on, reason, account, author, at)
                values (:referral, :code, :version, :what, :state, :askedOf, :askedOn, :chaseOn, :bookedFor, :bookedWhere,
                        :cameOn, :reason, :account, :author, :at)
                on conflict do nothing
                """ : """
                update tracked_item
                set version = :version, what = :what, state = :state, asked_of = :askedOf, asked_on = :askedOn,
                    chase_on = :chaseOn, booked_for = :bookedFor, booked_where = :bookedWhere, came_on = :cameOn,
                    reason = :reason, account = :account, author = :author, at = :at
                where referral = :referral and code = :code and version = :version - 1
                """;
        return jdbc.sql(sql)
                        .param("referral", item.referralId())
                        .param("code", item.code())
                        .param("version", item.version())
                        .param("what", item.what())
                        .param("state", standing.state)
                        .param("askedOf", standing.askedOf)
                        .param("askedOn", standing.askedOn)
                        .param("chaseOn", standing.chaseOn)
                        .param("bookedFor", standing.bookedFor)
                        .param("bookedWhere", standing.bookedWhere)
                        .param("cameOn", standing.cameOn)
                        .param("reason", standing.reason)
                        .param("account", author.id())
                        .param("author", item.author())
                        .param("at", item.at().atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** Every state that the items of a referral were in, newest first. */
    public List<TrackedStep> steps(long referral) {
        return jdbc.sql("""
                select code, version, state, details, author, at
                from tracked_item_step
                where referral = :referral
                order by id desc
                """)
                .param("referral", referral)
                .query((row, number) -> new TrackedStep(
                        row.getString("code"),
                        row.getInt("version"),
                        row.getString("state"),
                        row.getString("details"),
                        row.getString("author"),
                        instant(row, "at")))
                .list();
    }

    public List<ProcedureBooking> bookings(Collection<Long> referrals) {
        return jdbc.sql("""
                select referral, version, starts, room, ready_at, ready_by, author, at
                from procedure_booking
                where referral = any (:referrals)
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query((row, number) -> new ProcedureBooking(
                        row.getLong("referral"),
                        row.getInt("version"),
                        row.getObject("starts", LocalDateTime.class),
                        row.getString("room"),
                        Optional.ofNullable(row.getObject("ready_at", OffsetDateTime.class))
                                .map(OffsetDateTime::toInstant),
                        Optional.ofNullable(row.getString("ready_by")),
                        row.getString("author"),
                        instant(row, "at")))
                .list();
    }

    /**
     * Puts a booking in the place of the version before its.
     *
     * @return false if it is no longer at that version
     */
    public boolean put(ProcedureBooking booking, Person author) {
        var sql = booking.version() == 1 ? """
                insert into procedure_booking (referral, version, starts, room, ready_at, ready_by, account, author, at)
                values (:referral, :version, :starts, :room, :readyAt, :readyBy, :account, :author, :at)
                on conflict do nothing
                """ : """
                update procedure_booking
                set version = :version, starts = :starts, room = :room, ready_at = :readyAt, ready_by = :readyBy,
                    account = :account, author = :author, at = :at
                where referral = :referral and version = :version - 1
                """;
        return jdbc.sql(sql)
                        .param("referral", booking.referralId())
                        .param("version", booking.version())
                        .param("starts", booking.starts())
                        .param("room", booking.room())
                        .param(
                                "readyAt",
                                booking.readyAt()
                                        .map(at -> at.atOffset(ZoneOffset.UTC))
                                        .orElse(null))
                        .param("readyBy", booking.readyBy().orElse(null))
                        .param("account", author.id())
                        .param("author", booking.author())
                        .param("at", booking.at().atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /** The last override of each of these referrals. */
    public List<ReadinessOverride> lastOverrides(Collection<Long> referrals) {
        return jdbc.sql("""
                select distinct on (referral) referral, facts, reason, author, at
                from readiness_override
                where referral = any (:referrals)
                order by referral, id desc
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query(PreparationStore::override)
                .list();
    }

    /** Every override of one referral, newest first. */
    public List<ReadinessOverride> overrides(long referral) {
        return jdbc.sql("""
                select referral, facts, reason, author, at
                from readiness_override
                where referral = :referral
                order by id desc
                """)
                .param("referral", referral)
                .query(PreparationStore::override)
                .list();
    }

    public void add(ReadinessOverride override, Person author) {
        jdbc.sql("""
                insert into readiness_override (referral, facts, reason, account, author, at)
                values (:referral, :facts, :reason, :account, :author, :at)
                """)
                .param("referral", override.referralId())
                .param("facts", override.facts())
                .param("reason", override.reason())
                .param("account", author.id())
                .param("author", override.author())
                .param("at", override.at().atOffset(ZoneOffset.UTC))
                .update();
    }

    public Optional<CaseRecord> record(long referral) {
        return jdbc.sql("""
                select referral, minutes, access, outcome, note, narrowed, closed, closed_above_groin, length_mm,
                       heavily_calcified, earlier_failure, from_arm, author, at
                from recorded_case
                where referral = :referral
                """)
                .param("referral", referral)
                .query(PreparationStore::record)
                .optional();
    }

    /** Every recorded case, oldest first. */
    public List<CaseRecord> records() {
        return jdbc.sql("""
                select referral, minutes, access, outcome, note, narrowed, closed, closed_above_groin, length_mm,
                       heavily_calcified, earlier_failure, from_arm, author, at
                from recorded_case
                order by at, referral
                """).query(PreparationStore::record).list();
    }

    /** Keeps what became of a case; false if it was recorded before. */
    public boolean add(CaseRecord record, Person author) {
        return jdbc.sql("""
                        insert into recorded_case (referral, minutes, access, outcome, note, narrowed, closed,
                                                   closed_above_groin, length_mm, heavily_calcified, earlier_failure, from_arm,
                                                   account, author, at)
                        values (:referral, :minutes, :access, :outcome, :note, :narrowed, :closed, :closedAboveGroin,
                                :lengthMm, :heavilyCalcified, :earlierFailure, :fromArm, :account, :author, :at)
                        on conflict do nothing
                        """)
                        .param("referral", record.referralId())
                        .param("minutes", record.minutes())
                        .param("access", record.access())
                        .param("outcome", record.outcome().name())
                        .param("note", record.note())
                        .param(
                                "narrowed",
                                record.features().map(CaseFeatures::narrowed).orElse(null))
                        .param(
                                "closed",
                                record.features().map(CaseFeatures::closed).orElse(null))
                        .param(
                                "closedAboveGroin",
                                record.features()
                                        .map(CaseFeatures::closedAboveGroin)
                                        .orElse(null))
                        .param(
                                "lengthMm",
                                record.features().map(CaseFeatures::lengthMm).orElse(null))
                        .param(
                                "heavilyCalcified",
                                record.features()
                                        .map(CaseFeatures::heavilyCalcified)
                                        .orElse(null))
                        .param(
                                "earlierFailure",
                                record.features()
                                        .map(CaseFeatures::earlierFailure)
                                        .orElse(null))
                        .param(
                                "fromArm",
                                record.features().map(CaseFeatures::fromArm).orElse(null))
                        .param("account", author.id())
                        .param("author", record.author())
                        .param("at", record.at().atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    private static TrackedItem item(ResultSet row, int number) throws SQLException {
        return new TrackedItem(
                row.getLong("referral"),
                row.getString("code"),
                row.getInt("version"),
                row.getString("what"),
                standing(row),
                row.getString("author"),
                instant(row, "at"));
    }

    private static Standing standing(ResultSet row) throws SQLException {
        var state = row.getString("state");
        return switch (state) {
            case "WANTED" -> new Standing.Wanted();
            case "ASKED" ->
                new Standing.Asked(
                        row.getString("asked_of"),
                        row.getObject("asked_on", LocalDate.class),
                        row.getObject("chase_on", LocalDate.class));
            case "BOOKED" ->
                new Standing.Booked(row.getObject("booked_for", LocalDate.class), row.getString("booked_where"));
            case "IN" -> new Standing.In(row.getObject("came_on", LocalDate.class));
            case "NOT_NEEDED" -> new Standing.NotNeeded(row.getString("reason"));
            default -> throw new IllegalStateException("no such state of an item: " + state);
        };
    }

    private static ReadinessOverride override(ResultSet row, int number) throws SQLException {
        return new ReadinessOverride(
                row.getLong("referral"),
                row.getString("facts"),
                row.getString("reason"),
                row.getString("author"),
                instant(row, "at"));
    }

    private static CaseRecord record(ResultSet row, int number) throws SQLException {
        return new CaseRecord(
                row.getLong("referral"),
                row.getInt("minutes"),
                row.getString("access"),
                CaseOutcome.valueOf(row.getString("outcome")),
                row.getString("note"),
                Optional.ofNullable(row.getObject("narrowed", Integer.class)).isPresent()
                        ? Optional.of(new CaseFeatures(
                                row.getInt("narrowed"),
                                row.getInt("closed"),
                                row.getBoolean("closed_above_groin"),
                                row.getDouble("length_mm"),
                                row.getInt("heavily_calcified"),
                                row.getBoolean("earlier_failure"),
                                row.getBoolean("from_arm")))
                        : Optional.empty(),
                row.getString("author"),
                instant(row, "at"));
    }

    private static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }
}
