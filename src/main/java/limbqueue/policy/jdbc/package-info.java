/** Every line of SQL about the draft of the policy. */
@NullMarked
package limbqueue.policy.jdbc;

import org.jspecify.annotations.NullMarked;
