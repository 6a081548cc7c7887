/**
 * The search for a plan: pure, from what waits to what is proposed. It knows the model, a general-purpose solver and
 * nothing else; no clock is read but by a search that is given an end by the clock.
 */
@NullMarked
package limbqueue.booking.solver;

import org.jspecify.annotations.NullMarked;
