/** The SQL of the preparation module: tracked items, bookings, covered stents, confirmations, overrides, recorded cases. */
@NullMarked
package limbqueue.preparation.jdbc;

import org.jspecify.annotations.NullMarked;
