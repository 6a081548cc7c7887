/** The practice's sessions as they are kept, who is in them, and the plan that is proposed for whoever has no place. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {"triage", "booking", "practice", "referral", "preparation", "live", "access", "shell"})
package limbqueue.timetable;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
