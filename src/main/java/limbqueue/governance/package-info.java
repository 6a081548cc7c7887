/** How well proposals serve: agreement, what was overruled and why, outcomes, waiting times, and who waits how long. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "triage :: rules",
            "forecast",
            "practice",
            "referral",
            "preparation",
            "access",
            "shell"
        })
package limbqueue.governance;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
