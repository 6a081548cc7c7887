package limbqueue.timetable.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.access.Person;
import limbqueue.booking.StepKind;
import limbqueue.booking.StepMinutes;
import limbqueue.timetable.Placed;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and keeps who is in which session. */
@Repository
public class AppointmentStore {

    /** Tells the locks of this module from those of others. */
    private static final int LOCK = 18;

    private static final String COLUMNS = """
            select a.id, a.version, a.referral, r.reference, r.document -> 'patient' ->> 'family' as family,
                   r.document -> 'patient' ->> 'given' as given, a.step, a.session, a.position, a.median, a.ninety,
                   a.told, a.placed, a.author, a.at
            from appointment a join referral r on r.id = a.referral
            """;

    private final JdbcClient jdbc;

    AppointmentStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * A referral that waits for places.
     *
     * @param changes how often something of it has changed: the same number means that nothing has
     */
    public record Waiting(long id, long changes) {}

    /**
     * What all counts of changes and all ids belong to: the database. A backup that was put in its place has another
     * value here.
     */
    public String ground() {
        return jdbc.sql("""
                select concat_ws(
                    ' ', (select oid from pg_database where datname = current_database()), pg_postmaster_start_time())
                """).query(String.class).single();
    }

    /**
     * Approved referrals whose case is neither in the room nor over. One whose procedure has a date and no place in any
     * session was booked outside of the sessions and is left out.
     */
    public List<Waiting> waiting() {
        return jdbc.sql("""
                select r.id, coalesce(c.changes, 0) as changes
                from referral r
                     left join change_count c on c.referral = r.id
                     left join procedure_booking b on b.referral = r.id
                where r.state = 'APPROVED' and r.part_of is null and b.ready_at is null
                      and not exists (select from recorded_case o where o.referral = r.id)
                      and (b.referral is null
                           or exists (select from appointment a
                                      where a.referral = r.id and a.step = 'PROCEDURE' and a.session is not null))
                order by r.id
                """)
                .query((row, number) -> new Waiting(row.getLong("id"), row.getLong("changes")))
                .list();
    }

    /** Whoever places this referral waits here until whoever came first is done. */
    public void takeTurns(long referral) {
        jdbc.sql("""
                select cast(pg_advisory_xact_lock(:lock, :referral) as text)
                """)
                .param("lock", LOCK)
                .param("referral", Math.floorMod(referral, Integer.MAX_VALUE))
                .query(String.class)
                .single();
    }

    /** Everybody in these sessions, in their order. */
    public List<Placed> inSessions(Collection<Long> sessions) {
        return jdbc.sql(COLUMNS + """
                where a.session = any (:sessions)
                order by a.session, a.position
                """)
                .param("sessions", sessions.toArray(Long[]::new))
                .query(AppointmentStore::placed)
                .list();
    }

    /** Every place of these referrals. */
    public List<Placed> of(Collection<Long> referrals) {
        return jdbc.sql(COLUMNS + """
                where a.referral = any (:referrals) and a.session is not null
                order by a.referral, a.id
                """)
                .param("referrals", referrals.toArray(Long[]::new))
                .query(AppointmentStore::placed)
                .list();
    }

    public Optional<Placed> find(long id) {
        return jdbc.sql(COLUMNS + "where a.id = :id and a.session is not null")
                .param("id", id)
                .query(AppointmentStore::placed)
                .optional();
    }

    /** The version of each appointment that these referrals have or had, by referral and step. */
    public Map<Long, Map<StepKind, Integer>> versions(Collection<Long> referrals) {
        record Row(long referral, StepKind step, int version) {}
        return jdbc
                .sql("select referral, step, version from appointment where referral = any (:referrals)")
                .param("referrals", referrals.toArray(Long[]::new))
                .query((row, number) -> new Row(
                        row.getLong("referral"), StepKind.valueOf(row.getString("step")), row.getInt("version")))
                .list()
                .stream()
                .collect(Collectors.groupingBy(Row::referral, Collectors.toMap(Row::step, Row::version)));
    }

    /**
     * Puts a step at the end of a session, from wherever it is.
     *
     * @param version of the appointment, 0 for none
     * @return false if it is no longer at that version
     */
    public boolean put(
            long referral,
            StepKind step,
            int version,
            long session,
            StepMinutes minutes,
            boolean planned,
            Person author,
            Instant at) {
        var sql = version == 0 ? """
                insert into appointment (referral, step, session, position, median, ninety, told, placed, account, author,
                                         at)
                values (:referral, :step, :session,
                        (select coalesce(max(position), 0) + 1 from appointment where session = :session),
                        :median, :ninety, false, :placed, :account, :author, :at)
                on conflict (referral, step) do nothing
                """ : """
                update appointment
                set version = version + 1, session = :session,
                    position = (select coalesce(max(position), 0) + 1 from appointment where session = :session),
                    median = :median, ninety = :ninety, told = false, placed = :placed, account = :account,
                    author = :author, at = :at
                where referral = :referral and step = :step and version = :version
                """;
        return jdbc.sql(sql)
                        .param("referral", referral)
                        .param("step", step.name())
                        .param("version", version)
                        .param("session", session)
                        .param("median", minutes.median())
                        .param("ninety", minutes.ninety())
                        .param("placed", planned ? "PLANNED" : "BY_HAND")
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 1;
    }

    /**
     * Takes an appointment out of its session.
     *
     * @return false if it is no longer at that version
     */
    public boolean takeOut(long id, int version, Person author, Instant at) {
        return jdbc.sql("""
                        update appointment
                        set version = version + 1, session = null, position = null, told = false, account = :account,
                            author = :author, at = :at
                        where id = :id and version = :version and session is not null
                        """)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .param("version", version)
                        .update()
                == 1;
    }

    /**
     * Notes that the patient has been told.
     *
     * @return false if it is no longer at that version
     */
    public boolean told(long id, int version, Person author, Instant at) {
        return told(id, version, true, author, at);
    }

    private boolean told(long id, int version, boolean told, Person author, Instant at) {
        return jdbc.sql("""
                        update appointment
                        set version = version + 1, told = :told, account = :account, author = :author, at = :at
                        where id = :id and version = :version and session is not null
                        """)
                        .param("told", told)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .param("version", version)
                        .update()
                == 1;
    }

    /**
     * Notes that a patient who had been told has to be told anew.
     *
     * @return false if it is no longer at that version
     */
    public boolean untold(long id, int version, Person author, Instant at) {
        return told(id, version, false, author, at);
    }

    /**
     * Has two appointments of one session change places. Both count as not told.
     *
     * @return false if one of them is no longer as given; then nothing good has been stored, and the caller undoes it
     */
    public boolean swap(Placed one, Placed other, Person author, Instant at) {
        return jdbc.sql("""
                        update appointment
                        set version = version + 1,
                            position = case id when :one then cast(:otherPosition as integer)
                                       else cast(:onePosition as integer) end,
                            told = false, account = :account, author = :author, at = :at
                        where session = :session
                              and (id = :one and version = :oneVersion or id = :other and version = :otherVersion)
                        """)
                        .param("one", one.id())
                        .param("oneVersion", one.version())
                        .param("onePosition", one.position())
                        .param("other", other.id())
                        .param("otherVersion", other.version())
                        .param("otherPosition", other.position())
                        .param("session", one.session())
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .update()
                == 2;
    }

    private static Placed placed(ResultSet row, int number) throws SQLException {
        return new Placed(
                row.getLong("id"),
                row.getInt("version"),
                row.getLong("referral"),
                row.getString("reference"),
                Stream.of(Optional.ofNullable(row.getString("family")), Optional.ofNullable(row.getString("given")))
                        .flatMap(Optional::stream)
                        .filter(name -> !name.isBlank())
                        .collect(Collectors.joining(", ")),
                StepKind.valueOf(row.getString("step")),
                row.getLong("session"),
                row.getInt("position"),
                new StepMinutes(row.getDouble("median"), row.getDouble("ninety")),
                row.getBoolean("told"),
                row.getString("placed").equals("PLANNED"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }
}
