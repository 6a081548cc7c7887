package limbqueue.timetable.jdbc;

import java.sql.Array;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.access.Person;
import limbqueue.booking.Capability;
import limbqueue.booking.HeldTime;
import limbqueue.booking.Session;
import limbqueue.booking.SessionKind;
import limbqueue.timetable.KeptSession;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and keeps sessions. */
@Repository
public class SessionStore {

    private static final String SELECT = """
            select id, version, kind, starts, ends, minutes, place, operator, capabilities, closed_because, emergency_minutes,
                   held_minutes, release_days, author, at
            from practice_session
            """;

    private final JdbcClient jdbc;

    SessionStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Whoever enters or opens a session waits here until whoever came first is done. */
    public void takeTurns() {
        jdbc.sql("lock table practice_session in share row exclusive mode").update();
    }

    /** Sessions from {@code first} to {@code last}, both included, by time. */
    public List<KeptSession> between(LocalDate first, LocalDate last) {
        return jdbc.sql(SELECT + """
                where starts >= :first and starts < :after
                order by starts, place, id
                """)
                .param("first", first.atStartOfDay())
                .param("after", last.plusDays(1).atStartOfDay())
                .query(SessionStore::session)
                .list();
    }

    /** These sessions, by time. */
    public List<KeptSession> these(Collection<Long> ids) {
        return jdbc.sql(SELECT + """
                where id = any (:ids)
                order by starts, place, id
                """)
                .param("ids", ids.toArray(Long[]::new))
                .query(SessionStore::session)
                .list();
    }

    /** The session; until the end of the transaction nobody else closes it or puts anybody into it. */
    public Optional<KeptSession> findLocked(long id) {
        return jdbc.sql(SELECT + """
                where id = :id
                for update
                """)
                .param("id", id)
                .query(SessionStore::session)
                .optional();
    }

    /** Open sessions that have this place or this operator at the same time. */
    public List<KeptSession> clashing(LocalDateTime starts, LocalDateTime ends, String place, String operator) {
        return jdbc.sql(SELECT + """
                where closed_because is null and starts < :ends and ends > :starts
                      and (lower(place) = lower(:place) or lower(operator) = lower(:operator))
                order by starts, id
                """)
                .param("starts", starts)
                .param("ends", ends)
                .param("place", place)
                .param("operator", operator)
                .query(SessionStore::session)
                .list();
    }

    /**
     * Keeps a new session.
     *
     * @param session its name does not matter
     * @return its id
     */
    public long add(Session session, Person author, Instant at) {
        return jdbc.sql("""
                insert into practice_session (kind, starts, ends, minutes, place, operator, capabilities, held_minutes,
                                              release_days, account, author, at)
                values (:kind, :starts, :ends, :minutes, :place, :operator, :capabilities, :held, :release, :account,
                        :author, :at)
                returning id
                """)
                .param("kind", session.kind().name())
                .param("starts", session.start())
                .param("ends", session.end())
                .param("minutes", session.minutes())
                .param("place", session.place())
                .param("operator", session.operator())
                .param(
                        "capabilities",
                        session.capabilities().stream().map(Enum::name).sorted().toArray(String[]::new))
                .param("held", session.held().minutes())
                .param("release", session.held().releaseDays())
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .query(Long.class)
                .single();
    }

    /**
     * Closes the session, or opens it again.
     *
     * @param because why it is closed; empty opens it
     * @return false if it is no longer at that version
     */
    public boolean close(long id, int version, Optional<String> because, Person author, Instant at) {
        return jdbc.sql("""
                        update practice_session
                        set version = version + 1, closed_because = :because, account = :account, author = :author,
                            at = :at
                        where id = :id and version = :version
                        """)
                        .param("because", because.orElse(null))
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .param("version", version)
                        .update()
                == 1;
    }

    /**
     * Says how many minutes of the session emergencies take.
     *
     * @param minutes of all emergencies in it together, 0 or more
     * @return false if it is no longer at that version
     */
    public boolean giveToEmergencies(long id, int version, int minutes, Person author, Instant at) {
        return jdbc.sql("""
                        update practice_session
                        set version = version + 1, emergency_minutes = :minutes, account = :account, author = :author,
                            at = :at
                        where id = :id and version = :version
                        """)
                        .param("minutes", minutes)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .param("version", version)
                        .update()
                == 1;
    }

    /**
     * Holds so much of the session.
     *
     * @return false if it is no longer at that version
     */
    public boolean hold(long id, int version, HeldTime held, Person author, Instant at) {
        return jdbc.sql("""
                        update practice_session
                        set version = version + 1, held_minutes = :held, release_days = :release, account = :account,
                            author = :author, at = :at
                        where id = :id and version = :version
                        """)
                        .param("held", held.minutes())
                        .param("release", held.releaseDays())
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .param("version", version)
                        .update()
                == 1;
    }

    /** Tells every open page that something about sessions is to be looked at anew. */
    public void tell() {
        jdbc.sql("select cast(pg_notify('limbqueue_changed', '0') as text)")
                .query(String.class)
                .single();
    }

    private static KeptSession session(ResultSet row, int number) throws SQLException {
        var because = Optional.ofNullable(row.getString("closed_because"));
        var id = row.getLong("id");
        var place = row.getString("place");
        return new KeptSession(
                id,
                row.getInt("version"),
                new Session(
                                KeptSession.name(id, place),
                                SessionKind.valueOf(row.getString("kind")),
                                row.getObject("starts", LocalDateTime.class),
                                row.getObject("ends", LocalDateTime.class),
                                row.getInt("minutes"),
                                place,
                                row.getString("operator"),
                                capabilities(row.getArray("capabilities")),
                                because.isPresent())
                        .holding(new HeldTime(row.getInt("held_minutes"), row.getInt("release_days"))),
                because,
                row.getInt("emergency_minutes"),
                row.getString("author"),
                row.getObject("at", OffsetDateTime.class).toInstant());
    }

    private static Set<Capability> capabilities(Array array) throws SQLException {
        var capabilities = EnumSet.noneOf(Capability.class);
        for (var name : (String[]) array.getArray()) {
            capabilities.add(Capability.valueOf(name));
        }
        return capabilities;
    }
}
