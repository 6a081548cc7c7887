/** The rule book as a physician reads it: on the screen with how often each rule speaks, and printed. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "triage :: rules",
            "triage :: thresholds",
            "practice",
            "referral",
            "print",
            "access",
            "shell"
        })
package limbqueue.rulebook;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
