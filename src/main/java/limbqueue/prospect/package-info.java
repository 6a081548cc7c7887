/**
 * What is to be expected of the procedure room if it goes on as it does: waits, missed dates, and what holding time for urgent
 * cases costs and brings; from the practice's own arrivals, queue and sessions. An estimate for whoever plans; it decides
 * nothing about any patient.
 */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "triage :: rules",
            "triage :: plan",
            "triage :: thresholds",
            "booking",
            "forecast",
            "timetable",
            "governance",
            "practice",
            "referral",
            "access",
            "shell"
        })
package limbqueue.prospect;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
