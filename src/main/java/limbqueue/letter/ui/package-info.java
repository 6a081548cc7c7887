/** The screen of letters to referring doctors. */
@NullMarked
package limbqueue.letter.ui;

import org.jspecify.annotations.NullMarked;
