/** The numbers that rules compare with, and the sources of the rules, read from data files. */
@NullMarked
@NamedInterface("thresholds")
package limbqueue.triage.threshold;

import org.jspecify.annotations.NullMarked;
import org.springframework.modulith.NamedInterface;
