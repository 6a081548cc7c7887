/** SQL of the presence module. */
@NullMarked
package limbqueue.presence.jdbc;

import org.jspecify.annotations.NullMarked;
