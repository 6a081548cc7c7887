/** Every line of SQL about what the practice sets for itself. */
@NullMarked
package limbqueue.practice.jdbc;

import org.jspecify.annotations.NullMarked;
