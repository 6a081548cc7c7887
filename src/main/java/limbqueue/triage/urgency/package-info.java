/** How soon: the tier that a leg calls for. */
@NullMarked
package limbqueue.triage.urgency;

import org.jspecify.annotations.NullMarked;
