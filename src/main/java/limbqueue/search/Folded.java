package limbqueue.search;

import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Words as they are compared: lower case, without accents, letters that are two in another spelling as two. The database folds
 * what it searches by a function of its own, {@code folded}; a test holds the two against each other.
 */
public final class Folded {

    /** Letters with a stroke, and pairs written as one, which no decomposition takes apart. */
    private static final Map<Integer, String> SPELT = Map.ofEntries(
            Map.entry((int) 'ß', "ss"),
            Map.entry((int) 'æ', "ae"),
            Map.entry((int) 'œ', "oe"),
            Map.entry((int) 'ø', "o"),
            Map.entry((int) 'ł', "l"),
            Map.entry((int) 'đ', "d"),
            Map.entry((int) 'ð', "d"),
            Map.entry((int) 'þ', "th"),
            Map.entry((int) 'ħ', "h"),
            Map.entry((int) 'ı', "i"),
            Map.entry((int) 'ĸ', "q"),
            Map.entry((int) 'ŋ', "n"),
            Map.entry((int) 'ŧ', "t"),
            Map.entry((int) 'ŉ', "n"));

    /**
     * A word of a text.
     *
     * @param start where it begins, in characters
     * @param end where it ends, the first character after it
     */
    public record Word(String folded, int start, int end) {}

    private Folded() {}

    /** The words of {@code text}, folded, in their order; what is no letter, digit or mark parts them. */
    public static List<Word> words(String text) {
        var words = new ArrayList<Word>();
        var at = 0;
        while (at < text.length()) {
            var start = at;
            while (at < text.length() && belongsToWord(text.codePointAt(at))) {
                at += Character.charCount(text.codePointAt(at));
            }
            if (at > start) {
                var folded = word(text.substring(start, at));
                if (!folded.isEmpty()) {
                    words.add(new Word(folded, start, at));
                }
            } else {
                at += Character.charCount(text.codePointAt(at));
            }
        }
        return words;
    }

    /** The words of {@code text}, folded, with one space between them. */
    public static String text(String text) {
        return String.join(" ", words(text).stream().map(Word::folded).toList());
    }

    private static boolean belongsToWord(int c) {
        return Character.isLetterOrDigit(c) || isMark(c);
    }

    private static boolean isMark(int c) {
        return switch (Character.getType(c)) {
            case Character.NON_SPACING_MARK, Character.COMBINING_SPACING_MARK, Character.ENCLOSING_MARK -> true;
            default -> false;
        };
    }

    private static String word(String word) {
        var folded = new StringBuilder();
        Normalizer.normalize(word, Normalizer.Form.NFKD)
                .toLowerCase(Locale.ROOT)
                .codePoints()
                .filter(c -> Character.getType(c) != Character.NON_SPACING_MARK)
                .forEach(c -> folded.append(SPELT.getOrDefault(c, Character.toString(c))));
        return Normalizer.normalize(folded, Normalizer.Form.NFC);
    }
}
