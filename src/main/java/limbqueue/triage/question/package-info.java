/** What is known, what is not, and what the unknown still allows. */
@NullMarked
package limbqueue.triage.question;

import org.jspecify.annotations.NullMarked;
