/** The screens of the worklist module. */
@NullMarked
package limbqueue.worklist.ui;

import org.jspecify.annotations.NullMarked;
