/** The page of the rule book. */
@NullMarked
package limbqueue.rulebook.ui;

import org.jspecify.annotations.NullMarked;
