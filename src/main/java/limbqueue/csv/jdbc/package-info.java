/** Keeps files, what their columns mean, and which rows are in. */
@NullMarked
package limbqueue.csv.jdbc;

import org.jspecify.annotations.NullMarked;
