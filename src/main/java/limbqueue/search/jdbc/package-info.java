/** Every line of SQL of the search. */
@NullMarked
package limbqueue.search.jdbc;

import org.jspecify.annotations.NullMarked;
