/** The screens of the invitation module. */
@NullMarked
package limbqueue.invitation.ui;

import org.jspecify.annotations.NullMarked;
