package limbqueue.calendar.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import limbqueue.access.Person;
import limbqueue.calendar.CalendarLink;
import limbqueue.calendar.CalendarOf;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and keeps links to calendars. */
@Repository
public class CalendarLinkStore {

    private static final String SELECT = """
            select id, kind, name, author, at, fetched_at, revoked_author, revoked_at
            from calendar_link
            """;

    private final JdbcClient jdbc;

    CalendarLinkStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** All links: those that can be used first, by name; then the revoked ones, the latest first. */
    public List<CalendarLink> all() {
        return jdbc.sql(SELECT + "order by revoked_at desc nulls first, lower(name), kind, id")
                .query(CalendarLinkStore::link)
                .list();
    }

    public Optional<CalendarLink> find(long id) {
        return jdbc.sql(SELECT + "where id = :id")
                .param("id", id)
                .query(CalendarLinkStore::link)
                .optional();
    }

    /** The link with this digest of a secret, revoked or not. */
    public Optional<CalendarLink> find(byte[] secret) {
        return jdbc.sql(SELECT + "where secret = :secret")
                .param("secret", secret)
                .query(CalendarLinkStore::link)
                .optional();
    }

    /** Keeps a new link. */
    public void add(CalendarOf of, byte[] secret, Person author, Instant at) {
        jdbc.sql("""
                insert into calendar_link (kind, name, secret, account, author, at)
                values (:kind, :name, :secret, :account, :author, :at)
                """)
                .param("kind", of.kind().name())
                .param("name", of.name())
                .param("secret", secret)
                .param("account", author.id())
                .param("author", author.displayName())
                .param("at", at.atOffset(ZoneOffset.UTC))
                .update();
    }

    /**
     * Revokes the link.
     *
     * @return false if it is revoked already, or there is none
     */
    public boolean revoke(long id, Person author, Instant at) {
        return jdbc.sql("""
                        update calendar_link
                        set revoked_account = :account, revoked_author = :author, revoked_at = :at
                        where id = :id and revoked_at is null
                        """)
                        .param("account", author.id())
                        .param("author", author.displayName())
                        .param("at", at.atOffset(ZoneOffset.UTC))
                        .param("id", id)
                        .update()
                == 1;
    }

    /** Notes that a program has read it, at most once a minute. */
    public void fetched(long id, Instant at) {
        jdbc.sql("""
                update calendar_link
                set fetched_at = :at
                where id = :id and revoked_at is null
                      and (fetched_at is null or fetched_at < cast(:at as timestamptz) - interval '1 minute')
                """).param("at", at.atOffset(ZoneOffset.UTC)).param("id", id).update();
    }

    private static CalendarLink link(ResultSet row, int number) throws SQLException {
        return new CalendarLink(
                row.getLong("id"),
                new CalendarOf(CalendarOf.Kind.valueOf(row.getString("kind")), row.getString("name")),
                row.getString("author"),
                moment(row, "at").orElseThrow(),
                moment(row, "fetched_at"),
                moment(row, "revoked_at").isEmpty()
                        ? Optional.empty()
                        : Optional.of(new CalendarLink.Revoked(
                                row.getString("revoked_author"),
                                moment(row, "revoked_at").orElseThrow())));
    }

    private static Optional<Instant> moment(ResultSet row, String column) throws SQLException {
        return Optional.ofNullable(row.getObject(column, OffsetDateTime.class)).map(OffsetDateTime::toInstant);
    }
}
