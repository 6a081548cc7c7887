package limbqueue.live.jdbc;

import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Properties;
import org.postgresql.PGConnection;
import org.postgresql.PGProperty;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.stereotype.Component;

/** Opens connections that listen. They are none of the pool's: a connection that listens is never given back. */
@Component
public class Notifications {

    /** Where the database's trigger tells. */
    private static final String LISTEN = "listen limbqueue_changed";

    private static final String NAME = "LimbQueue, listening";

    private final JdbcConnectionDetails database;

    Notifications(JdbcConnectionDetails database) {
        this.database = database;
    }

    /**
     * A connection that listens.
     *
     * @throws NotListeningException if the database cannot be reached
     */
    public Listening listen() {
        var settings = new Properties();
        var user = database.getUsername();
        var password = database.getPassword();
        if (user != null && !user.isEmpty()) {
            PGProperty.USER.set(settings, user);
            PGProperty.PASSWORD.set(settings, password == null ? "" : password);
        }
        PGProperty.APPLICATION_NAME.set(settings, NAME);
        PGProperty.TCP_KEEP_ALIVE.set(settings, true);
        try {
            var connection = DriverManager.getConnection(database.getJdbcUrl(), settings);
            try (var statement = connection.createStatement()) {
                statement.execute(LISTEN);
                return new Listening(connection, connection.unwrap(PGConnection.class));
            } catch (SQLException refused) {
                connection.close();
                throw refused;
            }
        } catch (SQLException unreachable) {
            throw new NotListeningException(unreachable);
        }
    }
}
