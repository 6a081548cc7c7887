/** Tests of the frame of every page and of its error pages. */
@NullMarked
package limbqueue.shell;

import org.jspecify.annotations.NullMarked;
