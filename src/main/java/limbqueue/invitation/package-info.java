/** The letter by which a patient learns of an appointment and how to prepare for it. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {"triage", "booking", "referral", "practice", "timetable", "letter", "access", "shell"})
package limbqueue.invitation;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
