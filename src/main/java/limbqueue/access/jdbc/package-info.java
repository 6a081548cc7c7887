/** Every line of SQL about accounts and the audit trail. */
@NullMarked
package limbqueue.access.jdbc;

import org.jspecify.annotations.NullMarked;
