/** What is asked of others until it is there: records of other hospitals, calls to patients who wait, the telephone log. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "document",
            "practice",
            "referral",
            "preparation",
            "letter",
            "live",
            "access",
            "shell"
        })
package limbqueue.chasing;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
