/** The connection on which the database tells what changed. */
@NullMarked
package limbqueue.live.jdbc;

import org.jspecify.annotations.NullMarked;
