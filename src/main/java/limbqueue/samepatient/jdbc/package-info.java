/** The SQL of the same-patient module: who may be alike, and what was said of pairs. */
@NullMarked
package limbqueue.samepatient.jdbc;

import org.jspecify.annotations.NullMarked;
