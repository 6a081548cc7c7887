/** What the reported lesions amount to: TASC II types, and GLASS grades and stage. */
@NullMarked
package limbqueue.triage.anatomy;

import org.jspecify.annotations.NullMarked;
