/** Sets pages as PDF, tagged for screen readers, with the font inside, and knows where envelopes have their window. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.print;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
