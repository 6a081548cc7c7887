/** Search over everything that a person may see: names, numbers, referrers, hospitals, the words of letters. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "referral", "access", "shell"})
package limbqueue.search;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
