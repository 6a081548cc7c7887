/** The SQL of the referral module: referrals, what was saved, submitted and decided. */
@NullMarked
package limbqueue.referral.jdbc;

import org.jspecify.annotations.NullMarked;
