/** The SQL of governance. */
@NullMarked
package limbqueue.governance.jdbc;

import org.jspecify.annotations.NullMarked;
