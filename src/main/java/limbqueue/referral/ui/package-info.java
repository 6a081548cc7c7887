/** The screens of a referral's life: the office's list and form, the physician's queue and decision. */
@NullMarked
package limbqueue.referral.ui;

import org.jspecify.annotations.NullMarked;
