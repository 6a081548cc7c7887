/** Sets pages as PDF: A4, tagged for screen readers, with the font inside. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.print;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
