/** The desk from which letters leave. */
@NullMarked
package limbqueue.dispatch.ui;

import org.jspecify.annotations.NullMarked;
