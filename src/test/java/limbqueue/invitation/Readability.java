package limbqueue.invitation;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;

/**
 * How hard an English text is to read, by two published formulas of words, sentences and syllables.
 *
 * <p>Reading ease: R. Flesch, A new readability yardstick, Journal of Applied Psychology 32 (1948), 221-233. Grade: J. P. Kincaid
 * and others, Derivation of new readability formulas for Navy enlisted personnel, Research Branch Report 8-75 (1975).
 *
 * <p>Syllables are counted as groups of vowels, less an e at the end that is not heard; that is an estimate, checked in the test
 * against words whose syllables a dictionary shows.
 */
record Readability(int words, int sentences, int syllables) {

    private static final Pattern SENTENCE = Pattern.compile("[.!?]+(?=\\s|$)|\\n");
    private static final Pattern BETWEEN_WORDS = Pattern.compile("[^\\p{L}']+");
    private static final Pattern VOWELS = Pattern.compile("(?<![tscg])i(?=[aou])|[aeiouy]+");
    private static final Pattern SILENT_END = Pattern.compile("(?<=[^aeiouyl])(e|es|ed)$|(?<=[aeiouy]l)e[sd]?$");
    private static final Pattern HEARD_END = Pattern.compile("([td]ed|[sxz]es|[cs]hes|ges|ces)$");

    static Readability of(String text) {
        var sentences = Arrays.stream(SENTENCE.split(text, -1))
                .map(Readability::words)
                .filter(words -> !words.isEmpty())
                .toList();
        return new Readability(
                sentences.stream().mapToInt(List::size).sum(),
                sentences.size(),
                sentences.stream()
                        .flatMap(List::stream)
                        .mapToInt(Readability::syllables)
                        .sum());
    }

    private static List<String> words(String sentence) {
        return Arrays.stream(BETWEEN_WORDS.split(sentence, -1))
                .filter(word -> !word.isEmpty())
                .map(word -> word.toLowerCase(Locale.ROOT))
                .toList();
    }

    static int syllables(String word) {
        var spoken =
                HEARD_END.matcher(word).find() ? word : SILENT_END.matcher(word).replaceFirst("");
        return Math.max(1, (int) VOWELS.matcher(spoken).results().count());
    }

    /** 206.835 less 1.015 times the words a sentence, less 84.6 times the syllables a word. */
    double ease() {
        return 206.835 - 1.015 * words / sentences - 84.6 * syllables / words;
    }

    /** 0.39 times the words a sentence, and 11.8 times the syllables a word, less 15.59. */
    double grade() {
        return 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
    }
}
