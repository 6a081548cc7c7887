package limbqueue.letter;

import java.time.Instant;
import java.util.Optional;

/**
 * The words that a kind of letter is written by in a language.
 *
 * @param version of the last publication; 0 if there never was one
 * @param text what counts
 * @param shipped whether it is what comes with the product
 * @param author who published it last
 */
public record LetterWording(
        LetterKind kind,
        String language,
        int version,
        String text,
        boolean shipped,
        Optional<String> author,
        Optional<Instant> at) {}
