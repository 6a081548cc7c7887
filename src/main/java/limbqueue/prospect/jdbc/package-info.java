/** The SQL of the prospect module. */
@NullMarked
package limbqueue.prospect.jdbc;

import org.jspecify.annotations.NullMarked;
