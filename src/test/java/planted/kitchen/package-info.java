/** A module that reaches where it may not. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package planted.kitchen;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
