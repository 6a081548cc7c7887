/** Whom the practice hears from, and the medicines it is told of: what is offered while a referral is typed. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "access", "shell"})
package limbqueue.directory;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
