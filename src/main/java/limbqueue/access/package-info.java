/** People, roles, sign-in, and the audit trail. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.access;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
