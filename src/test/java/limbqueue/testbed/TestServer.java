package limbqueue.testbed;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Properties;
import limbqueue.database.EmbeddedServer;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;

/**
 * The PostgreSQL server of this test run: the one {@code LIMBQUEUE_TEST_DATABASE_URL} names (with user and password in the
 * URL, allowed to create databases), else a container where an engine answers, else the application's own.
 */
final class TestServer {

    static final String VARIABLE = "LIMBQUEUE_TEST_DATABASE_URL";

    private final String url;
    private final Properties login = new Properties();

    private TestServer(String url, String user, String password) {
        this.url = url;
        if (!user.isEmpty()) {
            login.setProperty("user", user);
            login.setProperty("password", password);
        }
    }

    static TestServer start() {
        var given = System.getenv(VARIABLE);
        if (given != null && !given.isBlank()) {
            return new TestServer(given, "", "");
        }
        if (DockerClientFactory.instance().isDockerAvailable()) {
            // Its helper container removes it when this run is over.
            var container = new PostgreSQLContainer("postgres:18-alpine");
            container.start();
            return new TestServer(container.getJdbcUrl(), container.getUsername(), container.getPassword());
        }
        var server = EmbeddedServer.start(Path.of("target", "test-postgres"));
        Runtime.getRuntime().addShutdownHook(new Thread(server::close));
        return new TestServer(server.url(), server.user(), server.secret());
    }

    /** The URL of {@code database} on this server, with what else the given URL says. */
    String url(String database) {
        return url.replaceFirst("(jdbc:postgresql:(?://[^/?]*/)?)[^/?]*", "$1" + database);
    }

    String user() {
        return login.getProperty("user", "");
    }

    String password() {
        return login.getProperty("password", "");
    }

    Connection connect(String database) throws SQLException {
        return DriverManager.getConnection(url(database), login);
    }

    /** A connection that makes and drops databases. */
    Connection administer() throws SQLException {
        return DriverManager.getConnection(url, login);
    }
}
