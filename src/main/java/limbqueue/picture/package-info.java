/** The arteries of both legs as a picture, with the words that say the same: what is drawn where, and how on paper. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage"})
package limbqueue.picture;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
