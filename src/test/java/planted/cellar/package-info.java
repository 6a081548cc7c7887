/** A module that is reached into. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package planted.cellar;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
