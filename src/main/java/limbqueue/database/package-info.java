/** The PostgreSQL that the application runs on: its own, with a data folder that is kept, or one it is pointed at. */
@NullMarked
@ApplicationModule(allowedDependencies = {})
package limbqueue.database;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
