/**
 * Who goes into which session: sessions, each referral's path through them, and the plan that is proposed. It knows no
 * database and no clock; what is planned is handed in. Every plan is a proposal.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "triage :: rules", "triage :: thresholds"})
package limbqueue.booking;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
