package limbqueue.reading;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** Drugs by their generic name and the names they are sold or written under; see {@code drugs.txt}. */
final class Drugs {

    private static final Drugs SHIPPED = new Drugs();

    private final Map<String, String> genericByName = new LinkedHashMap<>();
    private final int longest;

    private Drugs() {
        var words = 1;
        for (var line : WordFile.lines("drugs.txt")) {
            var parts = line.split(";", -1);
            var generic = parts[0].strip();
            var names = new ArrayList<>(List.of(generic));
            if (parts.length > 1) {
                for (var name : parts[1].split(",", 0)) {
                    if (!name.isBlank()) {
                        names.add(name.strip());
                    }
                }
            }
            for (var name : names) {
                var plain = WordFile.lower(name).replace('-', ' ');
                genericByName.putIfAbsent(plain, generic);
                words = Math.max(words, plain.split(" ").length);
            }
        }
        longest = words;
    }

    static Drugs shipped() {
        return SHIPPED;
    }

    /** All names, in lower case and with blanks for hyphens. */
    Set<String> names() {
        return genericByName.keySet();
    }

    Optional<String> generic(String name) {
        return Optional.ofNullable(genericByName.get(name.replace('-', ' ')));
    }

    /** The most words that a name consists of. */
    int longestName() {
        return longest;
    }
}
