package limbqueue.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.util.FileSystemUtils;

class EmbeddedServerIT {

    /** Kept between the tests, since unpacking the programs takes longest. */
    private static final Path FOLDER = Path.of("target", "embedded-server-test");

    @BeforeEach
    void forgetTheData() throws IOException {
        FileSystemUtils.deleteRecursively(FOLDER.resolve("postgres"));
        FileSystemUtils.deleteRecursively(FOLDER.resolve("password"));
    }

    @Test
    void whatIsAcknowledgedIsOnTheDisk() throws SQLException {
        try (var server = EmbeddedServer.start(FOLDER)) {
            assertThat(ask(server, "show fsync")).isEqualTo("on");
            assertThat(ask(server, "show synchronous_commit")).isEqualTo("on");
            assertThat(ask(server, "show full_page_writes")).isEqualTo("on");
        }
    }

    @Test
    void itAnswersOnTheLoopbackAddressToWhoeverKnowsThePassword() throws Exception {
        try (var server = EmbeddedServer.start(FOLDER)) {
            assertThat(ask(server, "show listen_addresses")).isEqualTo("127.0.0.1");
            assertThat(ask(server, "show unix_socket_directories")).isEmpty();
            assertThatThrownBy(() -> DriverManager.getConnection(server.url(), server.user(), "guessed"))
                    .isInstanceOf(SQLException.class);
            assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(FOLDER.resolve("password"))))
                    .isEqualTo("rw-------");
        }
    }

    @Test
    void theDataAreKeptBetweenRuns() throws SQLException {
        try (var server = EmbeddedServer.start(FOLDER)) {
            run(server, "create table kept (word text)");
            run(server, "insert into kept values ('here')");
        }
        try (var server = EmbeddedServer.start(FOLDER)) {
            assertThat(ask(server, "select word from kept")).isEqualTo("here");
        }
    }

    @Test
    void afterAKillTheServerLeftBehindIsStoppedAndNothingWrittenIsLost() throws Exception {
        var other = start(ServerOfAnotherProcess.class, FOLDER.toString());
        waitFor(other, "written");
        var left = ProcessHandle.of(pidInFolder()).orElseThrow();
        assertThatThrownBy(() -> EmbeddedServer.start(FOLDER))
                .isInstanceOf(CannotStartException.class)
                .hasMessageContaining("in use by another running LimbQueue");
        assertThat(runs(left)).as("the server of a living process").isTrue();

        other.destroyForcibly().waitFor();
        assertThat(runs(left)).as("the server after its process was killed").isTrue();
        try (var server = EmbeddedServer.start(FOLDER)) {
            assertThat(runs(left))
                    .as("the server left behind, after the next start")
                    .isFalse();
            assertThat(ask(server, "select word from kept")).isEqualTo("approved");
        }
    }

    @Test
    void aProcessOfSomebodyElseThatHasTheNumberByNowIsLeftAlone() throws Exception {
        EmbeddedServer.start(FOLDER).close();
        var stranger = new ProcessBuilder("sleep", "60").start();
        try {
            Files.writeString(
                    FOLDER.resolve("postgres/postmaster.pid"),
                    stranger.pid() + "\n" + FOLDER.resolve("postgres").toRealPath() + "\n");
            try (var server = EmbeddedServer.start(FOLDER)) {
                assertThat(ask(server, "select 1")).isEqualTo("1");
            }
            assertThat(stranger.isAlive()).isTrue();
        } finally {
            stranger.destroyForcibly();
        }
    }

    @Test
    void aPidFileCutShortByAFullDiskDoesNotStopTheStart() throws Exception {
        EmbeddedServer.start(FOLDER).close();
        Files.writeString(FOLDER.resolve("postgres/postmaster.pid"), "");
        try (var server = EmbeddedServer.start(FOLDER)) {
            assertThat(ask(server, "select 1")).isEqualTo("1");
        }
    }

    @Test
    void dataOfAnotherVersionAreToldAndLeftAsTheyAre() throws Exception {
        EmbeddedServer.start(FOLDER).close();
        Files.writeString(FOLDER.resolve("postgres/PG_VERSION"), "13\n");
        assertThatThrownBy(() -> EmbeddedServer.start(FOLDER))
                .isInstanceOf(CannotStartException.class)
                .hasMessageContaining("made by PostgreSQL 13")
                .hasMessageContaining("restore the dump");
    }

    /** A process that ended but that nobody asked after keeps its number, and has no program any more. */
    private static boolean runs(ProcessHandle process) {
        return process.isAlive() && process.info().command().isPresent();
    }

    private static long pidInFolder() throws IOException {
        return Long.parseLong(Files.readAllLines(FOLDER.resolve("postgres/postmaster.pid"))
                .getFirst()
                .strip());
    }

    private static Process start(Class<?> main, String argument) throws IOException {
        return new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                        main.getName(),
                        argument)
                .redirectErrorStream(true)
                .start();
    }

    private static void waitFor(Process process, String word) throws IOException, InterruptedException {
        var output = new StringBuilder();
        var lines = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
        for (var line = lines.readLine(); line != null; line = lines.readLine()) {
            if (line.equals(word)) {
                return;
            }
            output.append(line).append('\n');
        }
        process.waitFor(5, TimeUnit.SECONDS);
        throw new AssertionError("never said " + word + ":\n" + output);
    }

    private static void run(EmbeddedServer server, String sql) throws SQLException {
        try (var connection = DriverManager.getConnection(server.url(), server.user(), server.secret());
                var statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    private static String ask(EmbeddedServer server, String sql) throws SQLException {
        try (var connection = DriverManager.getConnection(server.url(), server.user(), server.secret());
                var statement = connection.createStatement();
                var answer = statement.executeQuery(sql)) {
            answer.next();
            return answer.getString(1);
        }
    }
}
