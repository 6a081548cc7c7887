package limbqueue.database;

import java.nio.file.Path;
import java.sql.DriverManager;

/** A process that starts the database of a folder, writes a row, says so, and then only waits to be killed. */
final class ServerOfAnotherProcess {

    private ServerOfAnotherProcess() {}

    public static void main(String[] args) throws Exception {
        var server = EmbeddedServer.start(Path.of(args[0]));
        try (var connection = DriverManager.getConnection(server.url(), server.user(), server.secret());
                var statement = connection.createStatement()) {
            statement.execute("create table kept (word text)");
            statement.execute("insert into kept values ('approved')");
        }
        System.out.println("written");
        Thread.sleep(Long.MAX_VALUE);
    }
}
