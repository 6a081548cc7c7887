/** Not for other modules. */
@NullMarked
package planted.cellar.inner;

import org.jspecify.annotations.NullMarked;
