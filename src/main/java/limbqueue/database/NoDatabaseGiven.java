package limbqueue.database;

import org.springframework.context.annotation.Condition;
import org.springframework.context.annotation.ConditionContext;
import org.springframework.core.env.PropertyResolver;
import org.springframework.core.type.AnnotatedTypeMetadata;

/** Holds when the application is pointed at no database, and so brings its own. */
final class NoDatabaseGiven implements Condition {

    static final String URL = "spring.datasource.url";

    static boolean holds(PropertyResolver settings) {
        return settings.getProperty(URL, "").isBlank();
    }

    @Override
    public boolean matches(ConditionContext context, AnnotatedTypeMetadata metadata) {
        return holds(context.getEnvironment());
    }
}
