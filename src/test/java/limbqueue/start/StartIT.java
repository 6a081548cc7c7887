package limbqueue.start;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import limbqueue.testbed.TestDatabase;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class StartIT {

    @TempDir
    Path folder;

    @Test
    void withoutANewEnoughJavaOneLineSaysHowToGetIt() throws Exception {
        try (var run = Run.onOlderJava(folder, "nowhere")) {
            endsWithOneLine(run, "this is Java 17, Java 25 or later is needed", "point JAVA_HOME at it");
        }
    }

    @Test
    void anOlderJavaHandsOverToANewerOneAndPassesItsExitStatusOn() throws Exception {
        try (var taken = listening();
                var run = Run.onOlderJava(folder, "usual", "--server.port=" + taken.getLocalPort())) {
            endsWithOneLine(run, "Port " + taken.getLocalPort() + " is taken");
        }
    }

    @Test
    void aTakenPortIsOneLine() throws Exception {
        try (var taken = listening();
                var run = Run.jar(folder, "--server.port=" + taken.getLocalPort())) {
            endsWithOneLine(run, "Port " + taken.getLocalPort() + " is taken", "choose another");
        }
    }

    @Test
    void anUnreachableDatabaseIsOneLine() throws Exception {
        int free;
        try (var closed = listening()) {
            free = closed.getLocalPort();
        }
        try (var run = Run.jar(
                folder,
                "--server.port=0",
                "--spring.datasource.url=jdbc:postgresql://127.0.0.1:" + free + "/limbqueue")) {
            endsWithOneLine(run, "can't be reached", "spring.datasource.url");
        }
    }

    @Test
    void aWrongPasswordForTheDatabaseIsOneLine() throws Exception {
        try (var run = Run.jar(
                folder,
                "--server.port=0",
                "--spring.datasource.url=" + TestDatabase.fresh().url(),
                "--spring.datasource.username=limbqueue_nobody",
                "--spring.datasource.password=wrong")) {
            endsWithOneLine(run, "refuses the user name or password", "spring.datasource.password");
        }
    }

    @Test
    void aDataFolderThatCanNotBeWrittenIsOneLine() throws Exception {
        var inTheWay = Files.createFile(folder.resolve("file"));
        try (var run = Run.jar(folder, "--server.port=0", "--limbqueue.data-folder=" + inTheWay.resolve("data"))) {
            endsWithOneLine(run, "can't be written", "limbqueue.data-folder");
        }
    }

    @Test
    void aDatabaseOfOnesOwnIsUsedAndItsFirstManagerToldOnce() throws Exception {
        var database = TestDatabase.empty();
        var settings = new String[] {
            "--server.port=0",
            "--spring.datasource.url=" + database.url(),
            "--spring.datasource.username=" + database.user(),
            "--spring.datasource.password=" + database.password()
        };
        try (var first = Run.jar(folder, settings)) {
            assertThat(first.ready()).containsPattern("Sign in as manager with the password [a-z2-9-]{14}");
            assertThat(first.errors()).isEmpty();
        }
        try (var second = Run.jar(folder, settings)) {
            assertThat(second.ready()).doesNotContain("password");
        }
        assertThat(folder.resolve("limbqueue-data")).doesNotExist();
    }

    @Test
    void whatIsWrittenSurvivesAKillAndASignalEndsEverything() throws Exception {
        var data = folder.resolve("limbqueue-data");
        try (var first = Run.jar(folder, "--server.port=0")) {
            assertThat(first.ready())
                    .containsPattern("LimbQueue is ready: http://localhost:\\d+/")
                    .contains("Sign in as manager with the password ");
            assertThat(first.errors()).isEmpty();
            first.handle().destroyForcibly();
            first.exitCode();
        }
        var left = database(data);
        assertThat(Run.runs(left)).as("the database after a kill").isTrue();

        try (var second = Run.onOlderJava(folder, "usual", "--server.port=0")) {
            assertThat(second.ready()).as("the manager is there already").doesNotContain("password");
            assertThat(Run.runs(left)).isFalse();
            var child = second.handle().children().findFirst().orElseThrow();
            var own = database(data);
            second.handle().destroy();
            second.exitCode();
            assertThat(Run.runs(child))
                    .as("the newer Java after a signal to the older")
                    .isFalse();
            assertThat(Run.runs(own)).as("the database after a signal").isFalse();
        }

        try (var third = Run.onOlderJava(folder, "usual", "--server.port=0")) {
            third.ready();
            var child = third.handle().children().findFirst().orElseThrow();
            third.handle().destroyForcibly();
            third.exitCode();
            Run.waitUntilGone(child);
        }
        assertThat(Files.readString(data.resolve("logs/limbqueue.json"))).startsWith("{\"@timestamp\"");
    }

    private static ProcessHandle database(Path data) throws IOException {
        var pid = Files.readAllLines(data.resolve("postgres/postmaster.pid")).getFirst();
        return ProcessHandle.of(Long.parseLong(pid.strip())).orElseThrow();
    }

    private static ServerSocket listening() throws IOException {
        return new ServerSocket(0, 1, InetAddress.ofLiteral("127.0.0.1"));
    }

    private static void endsWithOneLine(Run run, String... parts) throws Exception {
        assertThat(run.exitCode()).isEqualTo(1);
        assertThat(run.errors().lines())
                .singleElement()
                .asString()
                .startsWith("limbqueue: ")
                .contains(parts);
        assertThat(run.output()).isEmpty();
        assertThat(Pattern.compile("^\\s+at ", Pattern.MULTILINE)
                        .matcher(run.errors())
                        .find())
                .isFalse();
    }
}
