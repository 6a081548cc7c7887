/** Same-day cases: they ring in every open browser until somebody takes them, and are asked of more people when nobody does. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "referral", "practice", "live", "access", "shell"})
package limbqueue.sameday;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
