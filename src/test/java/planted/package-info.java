/** Code that breaks a rule of the house on purpose, so that a test can see the rule fire. */
@NullMarked
package planted;

import org.jspecify.annotations.NullMarked;
