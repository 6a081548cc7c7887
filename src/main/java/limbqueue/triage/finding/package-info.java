/** What the referral as a whole shows: the case that flags and work-up look at, kidney function, substances. */
@NullMarked
package limbqueue.triage.finding;

import org.jspecify.annotations.NullMarked;
