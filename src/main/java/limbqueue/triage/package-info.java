/**
 * Triage: a pure function from a referral document, a policy and a date to grades, red flags, urgency, work-up and
 * questions, with its reasons. It reads no clock, no database and no configuration, and gives the same result for the
 * same input. Everything it says is a proposal: a licensed clinician decides, and local protocol prevails.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.triage;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
