package limbqueue.letter;

import java.time.Instant;
import java.util.Optional;

/**
 * The words of a kind of letter in a language as the practice published them.
 *
 * @param version from 1
 * @param text empty where the practice went back to the words that are shipped
 */
public record WordingVersion(int version, Optional<String> text, String author, Instant at) {}
