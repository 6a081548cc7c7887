/** Files that people drop: what each truly is, the text of a letter in it, and the store that keeps it unchanged. */
@NullMarked
@ApplicationModule(allowedDependencies = {"access"})
package limbqueue.file;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
