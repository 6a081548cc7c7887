/** The main layout, the error page, and the components that several modules show. */
@NullMarked
@ApplicationModule(allowedDependencies = {"access", "live"})
package limbqueue.shell;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
