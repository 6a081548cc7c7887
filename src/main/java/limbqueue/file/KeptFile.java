package limbqueue.file;

import java.time.Instant;

/**
 * A file that is kept with a referral, without its content.
 *
 * @param name as it came
 * @param size in bytes
 * @param digest SHA-256 of the content, in hexadecimal
 * @param keptBy who brought it, by name
 */
public record KeptFile(
        long id, long referralId, String name, FileType type, int size, String digest, String keptBy, Instant keptAt) {

    /** As {@code 120 kB}. */
    public String sizeInWords() {
        return LetterText.inWords(size);
    }
}
