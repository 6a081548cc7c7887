/** The words of letters as data: one text a kind and language, with placeholders that are checked before any letter is written. */
@NullMarked
package limbqueue.letter.wording;

import org.jspecify.annotations.NullMarked;
