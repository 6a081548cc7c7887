/** Tests of the database of our own and of the checks before the start. */
@NullMarked
package limbqueue.database;

import org.jspecify.annotations.NullMarked;
