/** The screens of the timetable module. */
@NullMarked
package limbqueue.timetable.ui;

import org.jspecify.annotations.NullMarked;
