package limbqueue.testbed;

import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.springframework.jdbc.datasource.DriverManagerDataSource;
import org.springframework.security.crypto.bcrypt.BCryptPasswordEncoder;

/**
 * A database of its own for a test: migrated, with one person of each role in it, and nothing else. Each is a copy of a
 * template that is made once a run.
 */
public final class TestDatabase {

    /** The password of everybody in a test database. */
    public static final String PASSWORD = "test-password";

    /** The people of a test database: sign-in name, display name, role. */
    static final List<List<String>> PEOPLE = List.of(
            List.of("coordinator", "Wren Halloway", "COORDINATOR"),
            List.of("physician", "Dr Imogen Tarrant", "PHYSICIAN"),
            List.of("manager", "Osric Pell", "MANAGER"));

    private static final String RUN = "limbqueue_t" + ProcessHandle.current().pid();
    private static final String TEMPLATE = RUN + "_template";
    private static final AtomicInteger NUMBER = new AtomicInteger();

    private static final class Shared {
        static final TestServer SERVER = prepare(TestServer.start());
    }

    private final String name;

    private TestDatabase(String name) {
        this.name = name;
    }

    /** A fresh database with a name of its own. */
    public static TestDatabase fresh() {
        var database = new TestDatabase(RUN + "_" + NUMBER.incrementAndGet());
        database.renew();
        return database;
    }

    /** A database without any table in it. */
    public static TestDatabase empty() {
        var database = new TestDatabase(RUN + "_" + NUMBER.incrementAndGet());
        execute("create database " + database.name);
        return database;
    }

    public String url() {
        return Shared.SERVER.url(name);
    }

    public String user() {
        return Shared.SERVER.user();
    }

    public String password() {
        return Shared.SERVER.password();
    }

    /** A source of unpooled connections to this database. */
    public DataSource dataSource() {
        var source = new DriverManagerDataSource(url());
        if (!user().isEmpty()) {
            source.setUsername(user());
            source.setPassword(password());
        }
        return source;
    }

    /** Makes this database anew as a copy of the template; whoever is connected to it is cut off. */
    void renew() {
        execute("drop database if exists " + name + " with (force)");
        execute("create database " + name + " template " + TEMPLATE);
    }

    private static void execute(String sql) {
        try (var connection = Shared.SERVER.administer();
                var statement = connection.createStatement()) {
            statement.execute(sql);
        } catch (SQLException failed) {
            throw new IllegalStateException(sql, failed);
        }
    }

    private static TestServer prepare(TestServer server) {
        try (var connection = server.administer();
                var statement = connection.createStatement()) {
            for (var left : leftByEarlierRuns(server)) {
                statement.execute("drop database if exists " + left + " with (force)");
            }
            statement.execute("create database " + TEMPLATE);
        } catch (SQLException failed) {
            throw new IllegalStateException("the test server can't make databases", failed);
        }
        Runtime.getRuntime().addShutdownHook(new Thread(() -> dropAll(server)));
        var login = server.user().isEmpty() ? null : server.user();
        Flyway.configure()
                .dataSource(server.url(TEMPLATE), login, login == null ? null : server.password())
                .load()
                .migrate();
        addPeople(server);
        return server;
    }

    private static void addPeople(TestServer server) {
        // Cheap to check, since tests sign in often.
        var hash = "{bcrypt}" + new BCryptPasswordEncoder(4).encode(PASSWORD);
        try (var connection = server.connect(TEMPLATE);
                var insert = connection.prepareStatement("""
                        insert into account (sign_in_name, display_name, role, password_hash, must_change_password)
                        values (?, ?, ?, ?, false)""")) {
            for (var person : PEOPLE) {
                insert.setString(1, person.get(0));
                insert.setString(2, person.get(1));
                insert.setString(3, person.get(2));
                insert.setString(4, hash);
                insert.executeUpdate();
            }
        } catch (SQLException failed) {
            throw new IllegalStateException("the people of the test database could not be added", failed);
        }
    }

    /** Databases of processes that are no more; on a server of somebody's own, two runs may be going at once. */
    private static List<String> leftByEarlierRuns(TestServer server) throws SQLException {
        var left = new ArrayList<String>();
        try (var connection = server.administer();
                var statement = connection.createStatement();
                var names = statement.executeQuery(
                        "select datname from pg_database where datname ~ '^limbqueue_t[0-9]+_'")) {
            while (names.next()) {
                var name = names.getString(1);
                var process = Long.parseLong(name.substring("limbqueue_t".length(), name.indexOf('_', 11)));
                if (process == ProcessHandle.current().pid()
                        || ProcessHandle.of(process).isEmpty()) {
                    left.add(name);
                }
            }
        }
        return left;
    }

    private static void dropAll(TestServer server) {
        try (var connection = server.administer();
                var statement = connection.createStatement()) {
            statement.execute("drop database if exists " + TEMPLATE + " with (force)");
            for (var number = 1; number <= NUMBER.get(); number++) {
                statement.execute("drop database if exists " + RUN + "_" + number + " with (force)");
            }
        } catch (SQLException serverIsGone) {
            // The embedded server may have been stopped first; the next run drops what is left.
            return;
        }
    }
}
