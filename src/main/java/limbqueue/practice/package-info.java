/** What a practice sets for itself: its name and letterhead, its policy. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "access", "shell"})
package limbqueue.practice;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
