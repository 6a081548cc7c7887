/** A planner that is not pure. */
@NullMarked
package planted.booking.solver;

import org.jspecify.annotations.NullMarked;
