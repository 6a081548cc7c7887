/** A forecast that is not pure. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package planted.forecast;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
