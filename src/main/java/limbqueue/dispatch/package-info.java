/** How letters leave: by e-mail, fax or post, once each, with what became of them. */
@NullMarked
@ApplicationModule(allowedDependencies = {"letter", "directory", "practice", "print", "live", "access", "shell"})
package limbqueue.dispatch;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
