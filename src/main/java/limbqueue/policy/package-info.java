/** The practice's policy as the lead physician writes it: a draft, what it would move, and what became of earlier versions. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "practice", "referral", "access", "shell"})
package limbqueue.policy;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
