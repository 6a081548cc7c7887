/** The page of governance. */
@NullMarked
package limbqueue.governance.ui;

import org.jspecify.annotations.NullMarked;
