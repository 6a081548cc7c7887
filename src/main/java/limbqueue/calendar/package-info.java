/** The sessions of a room or of an operator for calendar programs, by links that can be revoked. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "booking", "timetable", "access", "shell"})
package limbqueue.calendar;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
