package limbqueue.database;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.boot.SpringApplication;
import org.springframework.mock.env.MockEnvironment;

class StartChecksTest {

    @TempDir
    Path temporary;

    @Test
    void aTakenPortIsToldWithOneToTryInstead() throws IOException {
        try (var taken = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            assertThatThrownBy(() -> check(Map.of(
                            "server.port", Integer.toString(taken.getLocalPort()), "server.address", "127.0.0.1")))
                    .isInstanceOf(CannotStartException.class)
                    .hasMessageContaining("Port " + taken.getLocalPort() + " is taken")
                    .hasMessageContaining("--server.port=" + (taken.getLocalPort() + 1));
        }
    }

    @Test
    void aFolderThatCanNotBeWrittenIsTold() throws IOException {
        // A file in the way refuses even root, whom permissions do not stop.
        var file = Files.createFile(temporary.resolve("file"));
        assertThatThrownBy(() -> check(Map.of(
                        "server.port",
                        "0",
                        "limbqueue.data-folder",
                        file.resolve("data").toString())))
                .isInstanceOf(CannotStartException.class)
                .hasMessageContaining("can't be written")
                .hasMessageContaining("limbqueue.data-folder");
    }

    @Test
    void theLogGoesIntoTheDataFolder() {
        var settings = check(Map.of("server.port", "0", "limbqueue.data-folder", temporary.toString()));
        assertThat(settings.getProperty("logging.file.name"))
                .isEqualTo(temporary.resolve("logs/limbqueue.json").toString());
    }

    @Test
    void aUrlOfAnotherKindOfDatabaseIsTold() {
        assertThatThrownBy(
                        () -> check(Map.of("server.port", "0", "spring.datasource.url", "jdbc:mysql://db/limbqueue")))
                .isInstanceOf(CannotStartException.class)
                .hasMessageContaining("jdbc:postgresql://");
    }

    /** The numbers are PostgreSQL's own {@code server_version_num}: major times 10000 plus minor. */
    @ParameterizedTest
    @CsvSource({"90624, 9.6.24", "130014, 13.14", "139999, 13.99"})
    void aDatabaseBefore14IsTooOld(int number, String name) {
        assertThatThrownBy(() -> StartChecks.checkVersion(number, name))
                .isInstanceOf(CannotStartException.class)
                .hasMessageContaining("PostgreSQL " + name)
                .hasMessageContaining("14 or later");
    }

    @ParameterizedTest
    @CsvSource({"140000, 14.0", "140011, 14.11", "180004, 18.4"})
    void aDatabaseFrom14OnWillDo(int number, String name) {
        assertThatCode(() -> StartChecks.checkVersion(number, name)).doesNotThrowAnyException();
    }

    private static MockEnvironment check(Map<String, String> given) {
        var settings = new MockEnvironment();
        given.forEach(settings::setProperty);
        new StartChecks().postProcessEnvironment(settings, new SpringApplication());
        return settings;
    }
}
