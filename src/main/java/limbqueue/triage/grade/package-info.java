/** The published grades of a leg: Rutherford, Fontaine, WIfI, limb-threatening or not. */
@NullMarked
package limbqueue.triage.grade;

import org.jspecify.annotations.NullMarked;
