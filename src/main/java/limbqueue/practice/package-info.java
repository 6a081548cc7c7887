/** What a practice sets for itself: its name, letterhead and envelopes, its policy; and the rule books it worked by. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "triage :: rules", "document", "print", "access", "shell"})
package limbqueue.practice;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
