/** What arrives and is not yet a referral: letters, read into proposals that a person answers one by one. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "document",
            "reading",
            "file",
            "referral",
            "referral :: words",
            "access",
            "shell"
        })
package limbqueue.intake;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
