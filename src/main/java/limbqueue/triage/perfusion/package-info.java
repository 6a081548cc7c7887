/** How well a leg is supplied: pressures, indices, and the grade of ischaemia they give. */
@NullMarked
package limbqueue.triage.perfusion;

import org.jspecify.annotations.NullMarked;
