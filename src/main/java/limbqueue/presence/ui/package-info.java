/** What the presence module shows on the page of a referral. */
@NullMarked
package limbqueue.presence.ui;

import org.jspecify.annotations.NullMarked;
