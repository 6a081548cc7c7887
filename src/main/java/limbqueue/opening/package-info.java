/** What happens when the application opens: the demo or the first manager, and the block at the console. */
@NullMarked
@ApplicationModule(allowedDependencies = {"access", "practice", "database"})
package limbqueue.opening;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
