package limbqueue.database;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Map;
import java.util.Properties;
import java.util.stream.Collectors;
import org.springframework.boot.EnvironmentPostProcessor;
import org.springframework.boot.SpringApplication;
import org.springframework.core.Ordered;
import org.springframework.core.env.ConfigurableEnvironment;
import org.springframework.core.env.MapPropertySource;

/**
 * Looks, before anything is started, whether what the application needs from the machine is there: so the reason is one
 * line at the console, and not the last of many that followed from it.
 */
final class StartChecks implements EnvironmentPostProcessor, Ordered {

    /** PostgreSQL 14, as {@code server_version_num} gives it. */
    private static final int OLDEST_VERSION = 140000;

    /** Seconds to wait for a database to answer. */
    private static final String PATIENCE = "10";

    @Override
    public int getOrder() {
        // After the settings of files, arguments and environment are known, before the log file is opened.
        return Ordered.LOWEST_PRECEDENCE;
    }

    @Override
    public void postProcessEnvironment(ConfigurableEnvironment settings, SpringApplication application) {
        checkPort(settings);
        if (NoDatabaseGiven.holds(settings)) {
            var folder = Path.of(settings.getProperty("limbqueue.data-folder", "limbqueue-data"));
            checkFolder(folder);
            settings.getPropertySources()
                    .addLast(new MapPropertySource(
                            "limbqueue",
                            Map.of(
                                    "logging.file.name",
                                    folder.resolve("logs/limbqueue.json").toString())));
        } else {
            checkDatabase(settings);
        }
    }

    private static void checkPort(ConfigurableEnvironment settings) {
        var port = settings.getProperty("server.port", Integer.class, 8080);
        if (port <= 0) {
            return;
        }
        var address = settings.getProperty("server.address");
        try (var probe = new ServerSocket(port, 1, address == null ? null : InetAddress.getByName(address))) {
            probe.getLocalPort();
        } catch (IOException taken) {
            throw new CannotStartException(
                    "Port " + port + " is taken: stop the program that uses it, or choose another with --server.port="
                            + (port + 1) + " (or SERVER_PORT=" + (port + 1) + ").",
                    taken);
        }
    }

    private static void checkFolder(Path folder) {
        try {
            Files.createDirectories(folder);
            Files.delete(Files.createTempFile(folder, "probe", ".tmp"));
        } catch (IOException refused) {
            throw new CannotStartException(
                    "The data folder " + folder.toAbsolutePath()
                            + " can't be written: make it writable, or set limbqueue.data-folder to one that is.",
                    refused);
        }
    }

    private static void checkDatabase(ConfigurableEnvironment settings) {
        var url = settings.getProperty(NoDatabaseGiven.URL, "");
        if (!url.startsWith("jdbc:postgresql:")) {
            throw new CannotStartException(
                    "spring.datasource.url must name a PostgreSQL, as jdbc:postgresql://host:5432/name; it is " + url);
        }
        var properties = new Properties();
        put(properties, "user", settings.getProperty("spring.datasource.username"));
        put(properties, "password", settings.getProperty("spring.datasource.password"));
        properties.setProperty("connectTimeout", PATIENCE);
        properties.setProperty("loginTimeout", PATIENCE);
        try (var connection = DriverManager.getConnection(url, properties);
                var statement = connection.createStatement();
                var answer = statement.executeQuery(
                        "select current_setting('server_version_num')::integer, current_setting('server_version')")) {
            answer.next();
            checkVersion(answer.getInt(1), answer.getString(2));
            checkExtensions(connection);
        } catch (SQLException refused) {
            throw new CannotStartException(reason(url, refused), refused);
        }
    }

    static void checkVersion(int number, String name) {
        if (number < OLDEST_VERSION) {
            throw new CannotStartException("The database is PostgreSQL " + name
                    + ", which is too old: LimbQueue needs PostgreSQL 14 or later.");
        }
    }

    /**
     * The search needs two extensions that every PostgreSQL comes with. They are created at the first start by whoever may
     * create something in the database; where that is not allowed, an administrator does it once.
     */
    static void checkExtensions(Connection connection) throws SQLException {
        var missing = new ArrayList<String>();
        try (var statement = connection.createStatement();
                var answer = statement.executeQuery("""
                        select name
                        from unnest(array['pg_trgm', 'unaccent']) as name
                        where not exists (select from pg_extension where extname = name)
                              and not exists (
                                  select from pg_available_extension_versions as version
                                  where version.name = name.name
                                        and (version.trusted and has_database_privilege(current_database(), 'CREATE')
                                             or (select rolsuper from pg_roles where rolname = current_user)))
                        order by name
                        """)) {
            while (answer.next()) {
                missing.add(answer.getString(1));
            }
        }
        if (!missing.isEmpty()) {
            throw new CannotStartException(
                    "The database lacks what the search needs, and this user may not create it: let an"
                            + " administrator run, in this database and once, "
                            + missing.stream()
                                    .map(name -> "create extension if not exists " + name + ";")
                                    .collect(Collectors.joining(" "))
                            + " (both come with PostgreSQL, in some systems in a package of its own called contrib).");
        }
    }

    private static String reason(String url, SQLException refused) {
        var state = String.valueOf(refused.getSQLState());
        if (state.startsWith("28")) {
            return "The database at " + url + " refuses the user name or password: check spring.datasource.username and"
                    + " spring.datasource.password.";
        }
        if (state.equals("3D000")) {
            return "The database server answers, but has no database of the name in " + url
                    + ": create it, or correct spring.datasource.url.";
        }
        if (state.startsWith("08")) {
            return "The database at " + url + " can't be reached: start it, or correct spring.datasource.url.";
        }
        return "The database at " + url + " can't be used: "
                + String.valueOf(refused.getMessage()).lines().findFirst().orElse("it gives no reason") + ".";
    }

    private static void put(Properties properties, String key, @org.jspecify.annotations.Nullable String value) {
        if (value != null) {
            properties.setProperty(key, value);
        }
    }
}
