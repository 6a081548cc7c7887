/** Services and views that forget to ask for a role. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package planted.staff;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
