/** Tests of the screens of a referral's life. */
@NullMarked
package limbqueue.referral.ui;

import org.jspecify.annotations.NullMarked;
