/** The screens of the calendar module. */
@NullMarked
package limbqueue.calendar.ui;

import org.jspecify.annotations.NullMarked;
