package limbqueue.letter;

import java.util.List;
import java.util.Locale;
import java.util.function.ToIntFunction;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * How easily a text is read, by published formulas.
 *
 * <ul>
 *   <li>English, Reading Ease: R. Flesch, "A new readability yardstick", Journal of Applied Psychology 32 (1948) 221: 206.835 -
 *       1.015 words/sentences - 84.6 syllables/words. 70 to 80 is "fairly easy", of the seventh grade.
 *   <li>English, grade: J. P. Kincaid and others, "Derivation of new readability formulas", Naval Technical Training Command,
 *       Research Branch Report 8-75 (1975): 0.39 words/sentences + 11.8 syllables/words - 15.59.
 *   <li>Spanish: J. Fernández Huerta, "Medidas sencillas de lecturabilidad", Consigna 214 (1959) 29, as corrected by G. Law,
 *       LINGUIST List 22.2332 (2011): 206.84 - 0.60 syllables per 100 words - 1.02 words/sentences. 70 to 80 is "algo fácil", of
 *       the sixth grade.
 * </ul>
 *
 * <p>Syllables are counted by the spelling: in Spanish by its rules of vowels that meet, in English approximately.
 */
record Readability(int sentences, int words, int syllables) {

    private static final Pattern SENTENCE_END = Pattern.compile("[.!?:]+(\\s|$)");
    private static final Pattern WORD = Pattern.compile("\\p{L}+");
    private static final Pattern ENGLISH_VOWELS = Pattern.compile("[aeiouy]+");
    private static final Pattern SILENT =
            Pattern.compile("(?<![aeiouyl])e$|(?<=[aeiouy]l)e$|(?<![aeioutd])ed$|(?<![aeioyxszcg])(?<![cs]h)es$");
    /** Two vowels that meet are one syllable unless both are strong, or a weak one has the accent. */
    private static final Pattern SPANISH_NUCLEUS = Pattern.compile("[iuü]?[aeoáéó](?:[iuü]|y$)?|[íú]|[iuü]+y?|^y$");

    /** @param passages sentences, with or without a stop at the end */
    static Readability english(List<String> passages) {
        return of(passages, Readability::englishSyllables);
    }

    static Readability spanish(List<String> passages) {
        return of(passages, Readability::spanishSyllables);
    }

    private static Readability of(List<String> passages, ToIntFunction<String> syllables) {
        var sentences = passages.stream()
                .flatMap(SENTENCE_END::splitAsStream)
                .filter(sentence -> WORD.matcher(sentence).find())
                .toList();
        var words = sentences.stream().flatMap(Readability::words).toList();
        return new Readability(
                sentences.size(),
                words.size(),
                words.stream().mapToInt(syllables).sum());
    }

    private static Stream<String> words(String sentence) {
        return WORD.matcher(sentence.toLowerCase(Locale.ROOT)).results().map(found -> found.group());
    }

    double fleschReadingEase() {
        return 206.835 - 1.015 * words / sentences - 84.6 * syllables / words;
    }

    double fleschKincaidGrade() {
        return 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
    }

    double fernandezHuerta() {
        return 206.84 - 0.60 * 100.0 * syllables / words - 1.02 * words / sentences;
    }

    static int englishSyllables(String word) {
        var spoken = word.length() > 2 ? SILENT.matcher(word).replaceFirst("") : word;
        return Math.max(
                1, Math.toIntExact(ENGLISH_VOWELS.matcher(spoken).results().count()));
    }

    static int spanishSyllables(String word) {
        var spoken = word.replace("qu", "q").replaceAll("gu(?=[eiéí])", "g");
        return Math.max(
                1, Math.toIntExact(SPANISH_NUCLEUS.matcher(spoken).results().count()));
    }
}
