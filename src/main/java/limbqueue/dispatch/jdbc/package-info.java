/** The SQL of the outbox, and the scheduler that keeps its state in the database. */
@NullMarked
package limbqueue.dispatch.jdbc;

import org.jspecify.annotations.NullMarked;
