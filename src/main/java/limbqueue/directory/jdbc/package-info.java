/** Every line of SQL about referring doctors and hospitals. */
@NullMarked
package limbqueue.directory.jdbc;

import org.jspecify.annotations.NullMarked;
