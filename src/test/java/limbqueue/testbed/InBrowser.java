package limbqueue.testbed;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.extension.ExtendWith;

/** Like {@link OnPostgres}, and each {@link Visitor} that a test method asks for is a person with a browser of their own. */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@OnPostgres
@ExtendWith(Visitors.class)
public @interface InBrowser {}
