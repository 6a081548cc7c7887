/** The screen of the prospect module. */
@NullMarked
package limbqueue.prospect.ui;

import org.jspecify.annotations.NullMarked;
