/** What must be known or done before a procedure. */
@NullMarked
package limbqueue.triage.workup;

import org.jspecify.annotations.NullMarked;
