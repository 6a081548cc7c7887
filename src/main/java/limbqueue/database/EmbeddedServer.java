package limbqueue.database;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.SecureRandom;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.HexFormat;
import java.util.List;
import java.util.Properties;
import java.util.regex.Pattern;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.util.FileSystemUtils;

/**
 * A PostgreSQL server of our own on a data folder that is kept between runs. It answers on the loopback address alone, to
 * whoever knows the password in the folder, and it writes durably: an acknowledged transaction survives a power cut.
 *
 * <p>One process at a time uses a data folder. A server that an earlier process left running there, because it was killed,
 * is stopped first; a server of anybody else is never touched.
 */
public final class EmbeddedServer implements AutoCloseable {

    static final String USER = "limbqueue";
    static final String DATABASE = "limbqueue";

    private static final Logger LOG = LoggerFactory.getLogger(EmbeddedServer.class);
    private static final int ATTEMPTS = 3;
    private static final int MOST_CONNECTIONS = 40;
    private static final Pattern MAJOR_VERSION = Pattern.compile("\\) (\\d+)");

    private final Path folder;
    private final Path data;
    private final PostgresPrograms programs;
    private final FileChannel lock;
    private final String password;
    private final int port;

    /**
     * Starts the server, making the folder and the database where they are missing.
     *
     * @throws CannotStartException if the folder is in use, can't be written, or was made by another version
     */
    public static EmbeddedServer start(Path dataFolder) {
        try {
            var folder = Files.createDirectories(dataFolder).toRealPath();
            var lock = lock(folder);
            try {
                return new EmbeddedServer(folder, lock);
            } catch (IOException | SQLException | RuntimeException failed) {
                lock.close();
                throw failed;
            }
        } catch (IOException | SQLException failed) {
            throw new CannotStartException(
                    "The database in " + dataFolder.toAbsolutePath() + " can't be started: "
                            + String.valueOf(failed.getMessage())
                                    .lines()
                                    .findFirst()
                                    .orElse("no reason given")
                            + ". See postgres.log in its folder logs.",
                    failed);
        }
    }

    private EmbeddedServer(Path folder, FileChannel lock) throws IOException, SQLException {
        this.folder = folder;
        this.lock = lock;
        this.data = folder.resolve("postgres");
        Files.createDirectories(folder.resolve("logs"));
        programs = PostgresPrograms.in(folder);
        password = password();
        if (!Files.isDirectory(data)) {
            makeData();
        }
        checkVersion();
        stopWhatAnEarlierProcessLeft();
        port = startOnFreePort();
        try {
            makeDatabase();
        } catch (SQLException | RuntimeException failed) {
            stop();
            throw failed;
        }
    }

    /** Where this server's database answers. */
    public String url() {
        return url(DATABASE);
    }

    String url(String database) {
        return "jdbc:postgresql://127.0.0.1:" + port + "/" + database;
    }

    public String user() {
        return USER;
    }

    public String secret() {
        return password;
    }

    int port() {
        return port;
    }

    @Override
    public void close() {
        try {
            stop();
            lock.close();
        } catch (IOException failed) {
            throw new UncheckedIOException("the database in " + folder + " did not stop", failed);
        }
    }

    private static FileChannel lock(Path folder) throws IOException {
        // Held as long as this process lives, however it ends.
        var channel = FileChannel.open(folder.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
        try {
            if (channel.tryLock() != null) {
                return channel;
            }
        } catch (OverlappingFileLockException byThisProcess) {
            LOG.debug("{} is in use by this very process", folder, byThisProcess);
        }
        channel.close();
        throw new CannotStartException(
                "The data folder " + folder
                        + " is in use by another running LimbQueue: stop that one, or set limbqueue.data-folder to another folder.");
    }

    private String password() throws IOException {
        var file = folder.resolve("password");
        if (!Files.exists(file)) {
            var bytes = new byte[24];
            new SecureRandom().nextBytes(bytes);
            Files.writeString(file, "");
            ownerOnly(file);
            Files.writeString(file, HexFormat.of().formatHex(bytes));
        }
        return Files.readString(file).strip();
    }

    private static void ownerOnly(Path file) throws IOException {
        var posix = Files.getFileAttributeView(file, PosixFileAttributeView.class);
        if (posix != null) {
            posix.setPermissions(PosixFilePermissions.fromString("rw-------"));
        }
    }

    private void makeData() throws IOException {
        var unfinished = folder.resolve("postgres.new");
        FileSystemUtils.deleteRecursively(unfinished);
        Files.createDirectory(unfinished);
        programs.own(unfinished);
        var passwordFile = Files.createTempFile(folder, "password", ".once");
        try {
            Files.writeString(passwordFile, password);
            programs.own(passwordFile);
            PostgresPrograms.run(programs.command(
                    "initdb",
                    "--pgdata=" + unfinished,
                    "--username=" + USER,
                    "--auth=scram-sha-256",
                    "--pwfile=" + passwordFile,
                    "--encoding=UTF8",
                    // The same order of words on every machine.
                    "--locale=C",
                    "--locale-provider=builtin",
                    "--builtin-locale=C.UTF-8"));
        } finally {
            Files.delete(passwordFile);
        }
        // Renamed when complete, so that an interrupted first start leaves no half of a database.
        Files.move(unfinished, data, StandardCopyOption.ATOMIC_MOVE);
    }

    private void checkVersion() throws IOException {
        var madeBy = Files.readString(data.resolve("PG_VERSION")).strip();
        var version = MAJOR_VERSION.matcher(PostgresPrograms.run(programs.command("postgres", "--version")));
        if (version.find() && !version.group(1).equals(madeBy)) {
            throw new CannotStartException("The data in " + data + " was made by PostgreSQL " + madeBy
                    + ", this LimbQueue brings " + version.group(1)
                    + ": dump it with the LimbQueue that made it, and restore the dump here.");
        }
    }

    private void stopWhatAnEarlierProcessLeft() throws IOException {
        var pidFile = data.resolve("postmaster.pid");
        if (!Files.exists(pidFile)) {
            return;
        }
        var lines = Files.readAllLines(pidFile, StandardCharsets.UTF_8);
        // We hold the lock, so no living LimbQueue uses this folder. A process of that number is ours only if it runs
        // the programs of this folder: the number may belong to somebody else by now.
        var ours = !lines.isEmpty()
                && ProcessHandle.of(Long.parseLong(lines.getFirst().strip()))
                        .flatMap(process -> process.info().command())
                        .filter(command -> Path.of(command).startsWith(folder))
                        .isPresent();
        if (ours) {
            LOG.warn("An earlier process was killed and left its database running in {}: it is stopped now", data);
            stop();
        } else {
            Files.delete(pidFile);
        }
    }

    private int startOnFreePort() throws IOException {
        for (var attempt = 1; ; attempt++) {
            var free = freePort();
            try {
                startOn(free);
                return free;
            } catch (IOException taken) {
                // Somebody else may have taken the port between the probe and the start.
                if (attempt == ATTEMPTS) {
                    throw taken;
                }
                LOG.info("The database did not start on port {}, trying another", free, taken);
            }
        }
    }

    private void startOn(int port) throws IOException {
        var log = folder.resolve("logs").resolve("postgres.log");
        if (!Files.exists(log)) {
            Files.createFile(log);
            programs.own(log);
        }
        var options = String.join(
                " ",
                List.of(
                        "-p " + port,
                        "-c listen_addresses=127.0.0.1",
                        "-c unix_socket_directories=''",
                        "-c max_connections=" + MOST_CONNECTIONS,
                        "-c fsync=on",
                        "-c synchronous_commit=on",
                        "-c full_page_writes=on"));
        PostgresPrograms.run(programs.command(
                "pg_ctl",
                "start",
                "--pgdata=" + data,
                "--log=" + log,
                "--wait",
                "--timeout=90",
                "--options=" + options));
    }

    private static int freePort() throws IOException {
        try (var probe = new ServerSocket(0, 1, InetAddress.ofLiteral("127.0.0.1"))) {
            return probe.getLocalPort();
        }
    }

    private void makeDatabase() throws SQLException, IOException {
        try (var connection = connect();
                var statement = connection.createStatement()) {
            try (var answer = statement.executeQuery("select current_setting('data_directory')")) {
                answer.next();
                var answering = Path.of(answer.getString(1)).toRealPath();
                if (!answering.equals(data)) {
                    throw new CannotStartException("On port " + port + " answers the database of " + answering
                            + " in place of ours: start LimbQueue again.");
                }
            }
            try (var found = statement.executeQuery("select from pg_database where datname = '" + DATABASE + "'")) {
                if (found.next()) {
                    return;
                }
            }
            statement.execute("create database " + DATABASE);
        }
    }

    private Connection connect() throws SQLException {
        var properties = new Properties();
        properties.setProperty("user", USER);
        properties.setProperty("password", password);
        return DriverManager.getConnection(url("postgres"), properties);
    }

    private void stop() throws IOException {
        PostgresPrograms.run(
                programs.command("pg_ctl", "stop", "--pgdata=" + data, "--mode=fast", "--wait", "--timeout=60"));
    }
}
