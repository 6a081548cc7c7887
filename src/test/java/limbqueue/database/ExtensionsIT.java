package limbqueue.database;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.SQLException;
import limbqueue.testbed.TestDatabase;
import org.junit.jupiter.api.Test;

/** A database whose user may create nothing in it, as an operator may well wish. */
class ExtensionsIT {

    @Test
    void whereTheExtensionsMayNotBeCreatedTheStartSaysWhoMustDoWhat() throws SQLException {
        var guest = "limbqueue_guest_" + ProcessHandle.current().pid();
        try (var connection = TestDatabase.empty().dataSource().getConnection();
                var statement = connection.createStatement()) {
            statement.execute("create role " + guest);
            try {
                assertThatCode(() -> StartChecks.checkExtensions(connection)).doesNotThrowAnyException();
                statement.execute("create extension unaccent");
                statement.execute("set role " + guest);
                assertThatThrownBy(() -> StartChecks.checkExtensions(connection))
                        .isInstanceOf(CannotStartException.class)
                        .hasMessageContaining("administrator")
                        .hasMessageContaining("create extension if not exists pg_trgm;")
                        .hasMessageNotContaining("unaccent");
                statement.execute("reset role");
                statement.execute("create extension pg_trgm");
                statement.execute("set role " + guest);
                assertThatCode(() -> StartChecks.checkExtensions(connection)).doesNotThrowAnyException();
            } finally {
                statement.execute("reset role");
                statement.execute("drop role " + guest);
            }
        }
    }
}
