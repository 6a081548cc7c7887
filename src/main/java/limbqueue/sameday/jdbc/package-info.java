/** SQL of the sameday module. */
@NullMarked
package limbqueue.sameday.jdbc;

import org.jspecify.annotations.NullMarked;
