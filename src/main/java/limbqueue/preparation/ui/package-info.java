/** The screens of preparation: the worklist, one case, the stock of covered stents. */
@NullMarked
package limbqueue.preparation.ui;

import org.jspecify.annotations.NullMarked;
