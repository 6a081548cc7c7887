/** What tests stand on: a database, the running application, and a browser. */
@NullMarked
package limbqueue.testbed;

import org.jspecify.annotations.NullMarked;
