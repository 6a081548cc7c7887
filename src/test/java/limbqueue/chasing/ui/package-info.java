/** Tests of the screens of the chasing module. */
@NullMarked
package limbqueue.chasing.ui;

import org.jspecify.annotations.NullMarked;
