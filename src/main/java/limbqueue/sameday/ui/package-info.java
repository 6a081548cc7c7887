/** The banner and the screens of the sameday module. */
@NullMarked
package limbqueue.sameday.ui;

import org.jspecify.annotations.NullMarked;
