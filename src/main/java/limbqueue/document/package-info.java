/** The public data format: referral documents in, referral documents and triage results out, every problem by its path. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage"})
package limbqueue.document;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
