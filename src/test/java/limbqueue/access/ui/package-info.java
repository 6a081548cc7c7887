/** Tests of the pages for signing in and for people. */
@NullMarked
package limbqueue.access.ui;

import org.jspecify.annotations.NullMarked;
