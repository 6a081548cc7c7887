package limbqueue.reading;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.Objects;

/** The files of words that the reader knows, a line an entry. */
final class WordFile {

    private WordFile() {}

    /** The lines of a resource of this package without comments and blank lines. */
    static List<String> lines(String resource) {
        try (InputStream in = Objects.requireNonNull(WordFile.class.getResourceAsStream(resource), resource)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8)
                    .lines()
                    .filter(line -> !line.isBlank() && !line.startsWith("#"))
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static String lower(String word) {
        return word.toLowerCase(Locale.ROOT);
    }
}
