package limbqueue.governance;

import java.text.Normalizer;
import java.util.Arrays;
import java.util.Locale;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Words somebody typed, without the name of the patient they were typed about. */
final class Nameless {

    private static final Pattern WORD = Pattern.compile("[\\p{L}\\p{M}]+");
    private static final String INSTEAD = "[name]";

    private Nameless() {}

    /** @param names the names of the patient, as far as they are known */
    static String words(String typed, String... names) {
        var parts = Arrays.stream(names)
                .flatMap(name -> WORD.matcher(name).results())
                .map(MatchResult::group)
                .filter(part -> part.codePointCount(0, part.length()) > 1)
                .map(Nameless::folded)
                .collect(Collectors.toSet());
        return without(typed, parts);
    }

    private static String without(String typed, Set<String> parts) {
        return WORD.matcher(typed).replaceAll(word -> parts.contains(folded(word.group())) ? INSTEAD : word.group());
    }

    /** Without capitals and accents. */
    private static String folded(String word) {
        return Normalizer.normalize(word, Normalizer.Form.NFD)
                .replaceAll("\\p{M}", "")
                .toLowerCase(Locale.ROOT);
    }
}
