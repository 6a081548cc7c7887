/** Tests of the page for the practice. */
@NullMarked
package limbqueue.practice.ui;

import org.jspecify.annotations.NullMarked;
