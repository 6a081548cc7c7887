/** Whether two referrals are of one person: who is alike and why, and what people said about it. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "referral", "search", "access", "shell"})
package limbqueue.samepatient;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
