/** Pairs of referrals on screen, side by side. */
@NullMarked
package limbqueue.samepatient.ui;

import org.jspecify.annotations.NullMarked;
