/** The policy as the lead physician writes it: a draft, what it would move, publication, and the versions before. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "practice", "referral", "access", "shell"})
package limbqueue.policy;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
