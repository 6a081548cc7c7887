/** How a procedure may be done: access, what must be in the room, and how long it takes. */
@NullMarked
@NamedInterface("plan")
package limbqueue.triage.plan;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
