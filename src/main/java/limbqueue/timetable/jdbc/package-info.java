/** The SQL of the timetable module. */
@NullMarked
package limbqueue.timetable.jdbc;

import org.jspecify.annotations.NullMarked;
