/** The screens of a referral: the office's list and form, the physician's queue, and the page on which a physician decides. */
@NullMarked
package limbqueue.referral.ui;

import org.jspecify.annotations.NullMarked;
