package limbqueue.database;

import java.nio.file.Path;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.jdbc.autoconfigure.JdbcConnectionDetails;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Conditional;
import org.springframework.context.annotation.Configuration;

/** Brings a server of our own where {@code spring.datasource.url} names none. */
@Configuration(proxyBeanMethods = false)
@Conditional(NoDatabaseGiven.class)
class DatabaseConfiguration {

    @Bean
    EmbeddedServer embeddedServer(@Value("${limbqueue.data-folder}") Path folder) {
        return EmbeddedServer.start(folder);
    }

    @Bean
    JdbcConnectionDetails connectionDetails(EmbeddedServer server) {
        return new JdbcConnectionDetails() {
            @Override
            public String getUsername() {
                return server.user();
            }

            @Override
            public String getPassword() {
                return server.secret();
            }

            @Override
            public String getJdbcUrl() {
                return server.url();
            }
        };
    }
}
