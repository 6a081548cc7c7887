/** The page where the directory is seen, corrected and merged. */
@NullMarked
package limbqueue.directory.ui;

import org.jspecify.annotations.NullMarked;
