/** A core that is not pure. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package planted.triage;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
