/** Tests of the screens of preparation. */
@NullMarked
package limbqueue.preparation.ui;

import org.jspecify.annotations.NullMarked;
