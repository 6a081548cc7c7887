/** Reads letters: the words of a referral letter in, the fields that it states out, each with the words that it rests on. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document"})
package limbqueue.reading;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
