/** Tests of the screen on which a letter becomes a referral. */
@NullMarked
package limbqueue.intake.ui;

import org.jspecify.annotations.NullMarked;
