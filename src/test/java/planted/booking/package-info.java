/** A module whose planner knows more than its model. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package planted.booking;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
