/** The office's lists, which empty: what is to be done today, and for each referral the one next thing to do. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "document",
            "practice",
            "referral",
            "preparation",
            "chasing",
            "live",
            "access",
            "shell"
        })
package limbqueue.worklist;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
