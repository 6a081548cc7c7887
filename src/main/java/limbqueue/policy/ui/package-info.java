/** The page on which the policy is written, previewed, published and read. */
@NullMarked
package limbqueue.policy.ui;

import org.jspecify.annotations.NullMarked;
