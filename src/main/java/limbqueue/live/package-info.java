/** Who hears what changed: a commit on one server is told to the open pages of all of them. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.live;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
