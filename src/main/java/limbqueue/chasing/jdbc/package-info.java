/** The SQL of the chasing module: days, records requests with their letters, telephone calls. */
@NullMarked
package limbqueue.chasing.jdbc;

import org.jspecify.annotations.NullMarked;
