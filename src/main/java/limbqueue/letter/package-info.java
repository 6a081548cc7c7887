/** Letters to referring doctors: text, PDF, and what was sent. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "referral", "practice", "access", "shell", "print"})
package limbqueue.letter;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
