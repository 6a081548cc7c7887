/** Tests of people, sign-in and the audit trail. */
@NullMarked
package limbqueue.access;

import org.jspecify.annotations.NullMarked;
