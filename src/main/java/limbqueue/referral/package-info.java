/** A referral's life: states, drafts, documents held, timeline, and the physician's decisions. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "triage :: rules",
            "document",
            "reading",
            "file",
            "picture",
            "practice",
            "directory",
            "access",
            "shell"
        })
package limbqueue.referral;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
