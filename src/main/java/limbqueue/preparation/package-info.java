/** What must be ready before a case: the work-up followed to its end, the stock, the gate to the room, and the case sheet. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "triage :: rules",
            "triage :: thresholds",
            "triage :: plan",
            "document",
            "practice",
            "referral",
            "picture",
            "print",
            "access",
            "shell"
        })
package limbqueue.preparation;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
