/** The SQL of the calendar module. */
@NullMarked
package limbqueue.calendar.jdbc;

import org.jspecify.annotations.NullMarked;
