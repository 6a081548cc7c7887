package limbqueue.live.jdbc;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.postgresql.PGConnection;
import org.postgresql.PGNotification;

/** A connection that listens. One thread waits on it; another may close it. */
public final class Listening implements AutoCloseable {

    /** A connection that does not answer within this many seconds is taken for broken. */
    private static final int ANSWERS_WITHIN_SECONDS = 2;

    private final Connection connection;
    private final PGConnection told;

    Listening(Connection connection, PGConnection told) {
        this.connection = connection;
        this.told = told;
    }

    /**
     * Waits until something is told, at most {@code longest}.
     *
     * @return numbers of referrals, 0 for what concerns all of them; empty if nothing was told and the connection still
     *     answers
     * @throws NotListeningException if it is broken
     */
    public List<Long> await(Duration longest) {
        try {
            var numbers = numbers(told.getNotifications(Math.toIntExact(longest.toMillis())));
            if (numbers.isEmpty() && !connection.isValid(ANSWERS_WITHIN_SECONDS)) {
                throw new NotListeningException(new SQLException("the connection does not answer"));
            }
            return numbers;
        } catch (SQLException broken) {
            throw new NotListeningException(broken);
        }
    }

    /** What was told since, without waiting. */
    public List<Long> meanwhile() {
        try {
            return numbers(told.getNotifications());
        } catch (SQLException broken) {
            throw new NotListeningException(broken);
        }
    }

    private static List<Long> numbers(PGNotification[] notifications) {
        var numbers = new ArrayList<Long>();
        if (notifications != null) {
            for (var notification : notifications) {
                numbers.add(Long.parseLong(notification.getParameter()));
            }
        }
        return numbers;
    }

    /** Ends it at once, also under a thread that waits on it. */
    @Override
    public void close() {
        try {
            connection.abort(Runnable::run);
        } catch (SQLException closedAlready) {
            // What mattered was that nobody listens on it any more.
            return;
        }
    }
}
