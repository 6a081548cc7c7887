/** Tests of the page of governance. */
@NullMarked
package limbqueue.governance.ui;

import org.jspecify.annotations.NullMarked;
