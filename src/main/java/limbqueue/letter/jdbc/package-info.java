/** The SQL of the letter module. */
@NullMarked
package limbqueue.letter.jdbc;

import org.jspecify.annotations.NullMarked;
