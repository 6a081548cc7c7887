/** The SQL of files. */
@NullMarked
package limbqueue.file.jdbc;

import org.jspecify.annotations.NullMarked;
