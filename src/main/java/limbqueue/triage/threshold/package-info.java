/** The numbers that rules compare with, and the sources of the rules, read from data files. */
@NullMarked
package limbqueue.triage.threshold;

import org.jspecify.annotations.NullMarked;
