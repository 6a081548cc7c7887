/** The rule book: what every rule says, where it is printed, and the numbers it compares with, as one value. */
@NullMarked
package limbqueue.triage.rule;

import org.jspecify.annotations.NullMarked;
