package limbqueue.reading;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Pattern;

/** Whether a text fits a pattern, as {@link String#matches}, with each pattern translated once. */
final class Fit {

    private static final Map<String, Pattern> PATTERNS = new ConcurrentHashMap<>();

    private Fit() {}

    /** @param pattern a pattern of the program, never words of a letter */
    static boolean matches(String text, String pattern) {
        return of(pattern).matcher(text).matches();
    }

    static Pattern of(String pattern) {
        return PATTERNS.computeIfAbsent(pattern, Pattern::compile);
    }
}
