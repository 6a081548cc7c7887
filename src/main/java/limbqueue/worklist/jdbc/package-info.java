/** The SQL of the worklist module. */
@NullMarked
package limbqueue.worklist.jdbc;

import org.jspecify.annotations.NullMarked;
