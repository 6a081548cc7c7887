/** The import of tables on screen. */
@NullMarked
package limbqueue.csv.ui;

import org.jspecify.annotations.NullMarked;
