/**
 * What is to be expected: how many referrals will come, how long patients will wait and which dates will be missed, and how
 * much time to hold for urgent ones. Pure functions of what the caller knows and of a seed: they read no clock, no database
 * and no configuration. All of it is an estimate for whoever plans; it decides nothing about any patient.
 */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "triage :: plan"})
package limbqueue.forecast;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
