/** Tests of the page of the policy. */
@NullMarked
package limbqueue.policy.ui;

import org.jspecify.annotations.NullMarked;
