/** The sign-in page, the manager's list of people and of activity, and the page for one's own password. */
@NullMarked
package limbqueue.access.ui;

import org.jspecify.annotations.NullMarked;
