package limbqueue.testbed;

import com.zaxxer.hikari.HikariDataSource;
import java.util.Map;
import org.springframework.core.Ordered;
import org.springframework.test.context.TestContext;
import org.springframework.test.context.support.AbstractTestExecutionListener;

/** Puts a fresh database under the application before each test class. */
final class FreshDatabase extends AbstractTestExecutionListener {

    private static final class Shared {
        static final TestDatabase DATABASE = TestDatabase.fresh();
    }

    @Override
    public int getOrder() {
        // Before the application is started or injected.
        return Ordered.HIGHEST_PRECEDENCE;
    }

    @Override
    public void beforeTestClass(TestContext test) {
        var database = Shared.DATABASE;
        database.renew();
        var settings = Map.of(
                "spring.datasource.url", database.url(),
                "spring.datasource.username", database.user(),
                "spring.datasource.password", database.password());
        // System properties, since the start checks read them before a test's own properties are there.
        settings.forEach((name, value) -> {
            if (!value.isEmpty()) {
                System.setProperty(name, value);
            }
        });
        var pool = (HikariDataSource) test.getApplicationContext().getBean(javax.sql.DataSource.class);
        pool.getHikariPoolMXBean().softEvictConnections();
        settings.keySet().forEach(System::clearProperty);
    }
}
