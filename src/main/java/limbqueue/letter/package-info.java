/** Letters to referring doctors and patients: their words as data, text, PDF, and what was sent. */
@NullMarked
@ApplicationModule(
        allowedDependencies = {
            "triage",
            "document",
            "booking",
            "referral",
            "preparation",
            "timetable",
            "directory",
            "practice",
            "access",
            "shell",
            "print"
        })
package limbqueue.letter;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
