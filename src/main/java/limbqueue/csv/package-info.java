/** Tables from elsewhere become referrals: a file is read, its columns are named, tried, and taken in row by row. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "referral", "search", "access", "shell"})
package limbqueue.csv;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
