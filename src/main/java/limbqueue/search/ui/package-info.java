/** The search on screen. */
@NullMarked
package limbqueue.search.ui;

import org.jspecify.annotations.NullMarked;
