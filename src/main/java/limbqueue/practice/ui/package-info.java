/** The page where the manager keeps the letterhead and reads the policy. */
@NullMarked
package limbqueue.practice.ui;

import org.jspecify.annotations.NullMarked;
