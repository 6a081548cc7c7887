/** Tests of the house as a whole: its modules, its layers, its names. */
@NullMarked
package limbqueue;

import org.jspecify.annotations.NullMarked;
