/** The first class of the jar: finds a Java that is new enough and leads to the application or the command line. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.start;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
