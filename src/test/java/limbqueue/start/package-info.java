/** Tests of the first class of the jar, and of the jar itself. */
@NullMarked
package limbqueue.start;

import org.jspecify.annotations.NullMarked;
