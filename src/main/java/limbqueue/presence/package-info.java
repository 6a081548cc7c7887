/** Who looks at a referral at this moment, on whatever server. */
@NullMarked
@ApplicationModule(allowedDependencies = {"referral", "live", "access", "shell"})
package limbqueue.presence;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
