/** The command line: one class a subcommand, without Spring. */
@NullMarked
@ApplicationModule(allowedDependencies = {"triage", "document", "reading", "file", "booking"})
package limbqueue.command;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.ApplicationModule;
