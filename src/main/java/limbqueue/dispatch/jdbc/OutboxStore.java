package limbqueue.dispatch.jdbc;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import limbqueue.dispatch.Channel;
import limbqueue.dispatch.Dispatch;
import limbqueue.dispatch.DispatchState;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Reads and writes the outbox. */
@Repository
public class OutboxStore {

    private static final String COLUMNS =
            "id, version, letter, channel, token, address, state, why, leaves_from, due_at, round, attempts, author, at";

    private final JdbcClient jdbc;

    public OutboxStore(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * Adds the record of a letter by one channel; nothing happens if there is one.
     *
     * @param why empty if it may leave
     */
    public void add(
            long letter, Channel channel, String address, String why, Instant leavesFrom, String author, Instant at) {
        jdbc.sql("""
                insert into outbox (letter, channel, address, state, why, leaves_from, due_at, author, at)
                values (:letter, :channel, :address, :state, :why, :leavesFrom, :leavesFrom, :author, :at)
                on conflict (letter, channel) do nothing""")
                .param("letter", letter)
                .param("channel", channel.name())
                .param("address", address)
                .param("state", why.isEmpty() ? "TO_SEND" : "HELD")
                .param("why", why)
                .param("leavesFrom", utc(leavesFrom))
                .param("author", author)
                .param("at", utc(at))
                .update();
    }

    public Optional<Dispatch> find(long id) {
        return jdbc.sql("select " + COLUMNS + " from outbox where id = :id")
                .param("id", id)
                .query(OutboxStore::dispatch)
                .optional();
    }

    public Optional<Dispatch> find(UUID token) {
        return jdbc.sql("select " + COLUMNS + " from outbox where token = :token")
                .param("token", token)
                .query(OutboxStore::dispatch)
                .optional();
    }

    public List<Dispatch> of(long letter) {
        return jdbc.sql("select " + COLUMNS + " from outbox where letter = :letter order by id")
                .param("letter", letter)
                .query(OutboxStore::dispatch)
                .list();
    }

    /** The records of a letter, which nobody else moves until the transaction ends. */
    public List<Dispatch> locked(long letter) {
        return jdbc.sql("select " + COLUMNS + " from outbox where letter = :letter order by id for update")
                .param("letter", letter)
                .query(OutboxStore::dispatch)
                .list();
    }

    /** All but the withdrawn ones, the oldest first. */
    public List<Dispatch> all() {
        return jdbc.sql("select " + COLUMNS + " from outbox where state <> 'WITHDRAWN' order by id")
                .query(OutboxStore::dispatch)
                .list();
    }

    /**
     * The next record to hand to the mail server, which nobody else is looking at: one that is due, or one that somebody
     * began to send so long ago that he has died.
     *
     * @param lost how long after its beginning
     */
    public Optional<Dispatch> lockNext(Instant now, Duration lost) {
        return jdbc.sql("select " + COLUMNS + """
                         from outbox
                        where channel in ('EMAIL', 'FAX')
                            and ((state = 'TO_SEND' and due_at <= :now) or (state = 'SENDING' and claimed_at <= :lost))
                        order by due_at, id
                        limit 1
                        for update skip locked""")
                .param("now", utc(now))
                .param("lost", utc(now.minus(lost)))
                .query(OutboxStore::dispatch)
                .optional();
    }

    /** Marks a record as being sent, and counts the attempt. */
    public void claim(Dispatch dispatch, String address, Instant now) {
        jdbc.sql("""
                        update outbox
                        set state = 'SENDING', address = :address, attempts = attempts + 1, claimed_at = :now, why = '',
                            version = version + 1, author = 'LimbQueue', at = :now
                        where id = :id and version = :version""")
                .param("id", dispatch.id())
                .param("version", dispatch.version())
                .param("address", address)
                .param("now", utc(now))
                .update();
    }

    /**
     * Goes on from {@code dispatch} to another state.
     *
     * @param why empty unless it is held, failed or bounced, or is tried again
     * @param dueAt when it is tried next
     * @return false if it is no longer at the version of {@code dispatch}
     */
    public boolean move(
            Dispatch dispatch, DispatchState to, String address, String why, Instant dueAt, String author, Instant at) {
        return jdbc.sql("""
                        update outbox
                        set state = :to, address = :address, why = :why, due_at = greatest(leaves_from, :dueAt),
                            claimed_at = null, version = version + 1, author = :author, at = :at
                        where id = :id and version = :version""")
                        .param("id", dispatch.id())
                        .param("version", dispatch.version())
                        .param("to", to.name())
                        .param("address", address)
                        .param("why", why)
                        .param("dueAt", utc(dueAt))
                        .param("author", author)
                        .param("at", utc(at))
                        .update()
                == 1;
    }

    /**
     * Has it sent once more, as a new message.
     *
     * @return false if it is no longer at the version of {@code dispatch}
     */
    public boolean again(Dispatch dispatch, String address, String author, Instant at) {
        return jdbc.sql("""
                        update outbox
                        set state = 'TO_SEND', address = :address, why = '', due_at = greatest(leaves_from, :at),
                            round = round + 1, attempts = 0, version = version + 1, author = :author, at = :at
                        where id = :id and version = :version""")
                        .param("id", dispatch.id())
                        .param("version", dispatch.version())
                        .param("address", address)
                        .param("author", author)
                        .param("at", utc(at))
                        .update()
                == 1;
    }

    private static OffsetDateTime utc(Instant instant) {
        return instant.atOffset(ZoneOffset.UTC);
    }

    private static Dispatch dispatch(ResultSet row, int number) throws SQLException {
        return new Dispatch(
                row.getLong("id"),
                row.getInt("version"),
                row.getLong("letter"),
                Channel.valueOf(row.getString("channel")),
                row.getObject("token", UUID.class),
                row.getString("address"),
                DispatchState.valueOf(row.getString("state")),
                row.getString("why"),
                instant(row, "leaves_from"),
                instant(row, "due_at"),
                row.getInt("round"),
                row.getInt("attempts"),
                row.getString("author"),
                instant(row, "at"));
    }

    private static Instant instant(ResultSet row, String column) throws SQLException {
        return row.getObject(column, OffsetDateTime.class).toInstant();
    }
}
