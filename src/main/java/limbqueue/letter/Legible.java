package limbqueue.letter;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import limbqueue.print.Typeface;

/** Whether the typeface of letters has every character of a letter. */
public final class Legible {

    /** More would be a list and no message. */
    private static final int MOST_NAMED = 3;

    private Legible() {}

    /** What cannot be printed of a letter; nothing if all can. */
    public static Optional<String> wrongWith(Parts letter) {
        return wrongWith(letter.asText());
    }

    /** What cannot be printed of this text; nothing if all can. */
    public static Optional<String> wrongWith(String text) {
        var lacking = Typeface.lacking(text);
        return lacking.isEmpty()
                ? Optional.empty()
                : Optional.of("Letters are printed in Latin, Greek and Cyrillic script, and what stands here is not: "
                        + named(lacking) + ".");
    }

    private static String named(List<String> words) {
        return words.stream()
                .limit(MOST_NAMED)
                .map(word -> "“" + word + "”")
                .collect(Collectors.joining(", ", "", words.size() > MOST_NAMED ? " and more" : ""));
    }
}
