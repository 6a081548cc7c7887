/** The rule book: what every rule says, where it is printed, and the numbers it compares with, as one value. */
@NullMarked
@NamedInterface("rules")
package limbqueue.triage.rule;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
