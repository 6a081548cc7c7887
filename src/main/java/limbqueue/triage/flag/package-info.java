/** Red flags: one rule a file. */
@NullMarked
package limbqueue.triage.flag;

import org.jspecify.annotations.NullMarked;
