package limbqueue.reading;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The words that rules know, the many ways to write them, and which damaged words are repaired. */
final class Lexicon {

    /** One way to write something, as the words it consists of, and the one form it is brought to. */
    record Variant(List<String> words, String canonical) {}

    private static final Lexicon SHIPPED = load();

    private final Map<String, List<Variant>> byFirstWord = new HashMap<>();
    private final Set<String> known = new HashSet<>();
    private final Set<String> shortWords = new HashSet<>();
    private final Map<Integer, List<String>> repairable = new HashMap<>();

    private Lexicon() {}

    static Lexicon shipped() {
        return SHIPPED;
    }

    private static Lexicon load() {
        var lexicon = new Lexicon();
        for (var line : WordFile.lines("words.txt")) {
            if (line.startsWith("~") || line.startsWith("=") || line.startsWith("!")) {
                for (var word : line.substring(1).strip().split(" ", 0)) {
                    lexicon.learn(word, !line.startsWith("="));
                    if (line.startsWith("!")) {
                        lexicon.shortWords.add(word);
                    }
                }
                continue;
            }
            var colon = line.indexOf(':');
            var canonical = line.substring(0, colon).strip();
            lexicon.learnAll(canonical);
            if (canonical.contains(" ") || canonical.contains("-")) {
                lexicon.variant(canonical, canonical);
            }
            for (var variant : line.substring(colon + 1).split(",", 0)) {
                lexicon.variant(variant.strip(), canonical);
            }
        }
        for (var drug : Drugs.shipped().names()) {
            for (var word : drug.split("[ -]", 0)) {
                lexicon.learn(word, word.length() >= 7);
            }
        }
        lexicon.byFirstWord
                .values()
                .forEach(variants -> variants.sort(Comparator.comparingInt(
                                (Variant variant) -> variant.words().size())
                        .reversed()));
        return lexicon;
    }

    private void learnAll(String phrase) {
        for (var word : phrase.split("[ -]", 0)) {
            known.add(word);
        }
    }

    private void learn(String word, boolean repair) {
        if (known.add(word) && repair) {
            repairable.computeIfAbsent(word.length(), _ -> new ArrayList<>()).add(word);
        } else if (repair && !repairable.getOrDefault(word.length(), List.of()).contains(word)) {
            repairable.computeIfAbsent(word.length(), _ -> new ArrayList<>()).add(word);
        }
    }

    private void variant(String variant, String canonical) {
        var words = List.of(variant.split("[ -]+"));
        known.addAll(words);
        byFirstWord
                .computeIfAbsent(words.getFirst().split("[/+]", 0)[0], _ -> new ArrayList<>())
                .add(new Variant(words, canonical));
    }

    List<Variant> startingWith(String word) {
        return byFirstWord.getOrDefault(word, List.of());
    }

    boolean knows(String word) {
        return known.contains(word);
    }

    /** The word that a damaged {@code word} was meant to be; {@code word} itself when that cannot be told. */
    String repair(String word) {
        if (word.length() < 3 || known.contains(word)) {
            return word;
        }
        return scanned(word).or(() -> mistyped(word)).orElse(word);
    }

    /** What character recognition makes of a word: digits for letters, and two letters for one. */
    private Optional<String> scanned(String word) {
        if (word.chars().anyMatch(c -> c >= '0' && c <= '9' || c == '|')) {
            for (var one : List.of("l", "i")) {
                var letters = word.replace('0', 'o')
                        .replace("1", one)
                        .replace("|", one)
                        .replace('5', 's')
                        .replace('8', 'b')
                        .replace('6', 'b');
                if (known.contains(letters)) {
                    return Optional.of(letters);
                }
            }
            return Optional.empty();
        }
        for (var pair : List.of("rn>m", "m>rn", "cl>d", "vv>w", "ii>u", "li>h", "c>e", "i>l", "l>i", "f>t", "t>f")) {
            var meant = pair.indexOf('>');
            var seen = pair.substring(0, meant);
            if (word.contains(seen)) {
                var letters = word.replace(seen, pair.substring(meant + 1));
                if (letters.length() >= (seen.equals("rn") ? 2 : 6) && known.contains(letters)) {
                    return Optional.of(letters);
                }
            }
        }
        return Optional.empty();
    }

    private Optional<String> mistyped(String word) {
        if (word.length() < 5 || word.length() > 30 || known.contains(withoutEnding(word))) {
            return Optional.empty();
        }
        var permitted = word.length() >= 11 ? 2 : 1;
        for (var distance = 1; distance <= permitted; distance++) {
            var meant = Optional.<String>empty();
            for (var length = word.length() - distance; length <= word.length() + distance; length++) {
                for (var candidate : repairable.getOrDefault(length, List.of())) {
                    if (candidate.charAt(0) == word.charAt(0)
                            && (candidate.length() >= 7 && word.length() >= 6 || shortWords.contains(candidate))
                            && within(word, candidate, distance)
                            && (meant.isEmpty()
                                    || candidate.length() == word.length()
                                            && meant.get().length() != word.length())) {
                        if (meant.isPresent()
                                && !candidate.startsWith(meant.get().substring(0, 4))) {
                            return Optional.empty();
                        }
                        meant = Optional.of(candidate);
                    }
                }
            }
            if (meant.isPresent()) {
                return meant;
            }
        }
        return Optional.empty();
    }

    private static String withoutEnding(String word) {
        return word.endsWith("s") || word.endsWith("d") ? word.substring(0, word.length() - 1) : word;
    }

    /** Whether {@code word} becomes {@code other} by at most {@code most} wrong, missing, added or swapped letters. */
    static boolean within(String word, String other, int most) {
        var before = new int[other.length() + 1];
        var previous = new int[other.length() + 1];
        var row = new int[other.length() + 1];
        for (var j = 0; j <= other.length(); j++) {
            previous[j] = j;
        }
        for (var i = 1; i <= word.length(); i++) {
            row[0] = i;
            var least = i;
            for (var j = 1; j <= other.length(); j++) {
                var cost = word.charAt(i - 1) == other.charAt(j - 1) ? 0 : 1;
                row[j] = Math.min(Math.min(row[j - 1] + 1, previous[j] + 1), previous[j - 1] + cost);
                if (i > 1
                        && j > 1
                        && word.charAt(i - 1) == other.charAt(j - 2)
                        && word.charAt(i - 2) == other.charAt(j - 1)) {
                    row[j] = Math.min(row[j], before[j - 2] + 1);
                }
                least = Math.min(least, row[j]);
            }
            if (least > most) {
                return false;
            }
            var spare = before;
            before = previous;
            previous = row;
            row = spare;
        }
        return previous[other.length()] <= most;
    }
}
