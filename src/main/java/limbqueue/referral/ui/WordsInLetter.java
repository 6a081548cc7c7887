package limbqueue.referral.ui;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.document.Draft;
import limbqueue.reading.FoundField;
import limbqueue.reading.LetterReader;

/** Where a letter says what the referral holds. */
final class WordsInLetter {

    private static final Pattern ENTRY = Pattern.compile("\\[\\d+]");

    /** Shorter values, as 40 or no, stand in a letter by chance. */
    private static final int SHORTEST_LOOKED_FOR = 4;

    /**
     * Some words of a letter.
     *
     * @param start in {@code char}s from 0
     * @param end exclusive
     */
    record Place(int start, int end) {}

    private WordsInLetter() {}

    /**
     * The words of {@code letter} that state what stands at {@code path}, in their order and without overlaps. Where the
     * letter is read otherwise, or the value was typed without it, the value's own words are looked for; empty if they are
     * not there either.
     *
     * @param path of a value, of an entry of a list, or of a part of the document
     */
    static List<Place> of(String letter, String path, Draft draft) {
        var read = LetterReader.read(letter).found().stream()
                .filter(found -> states(found, path, draft))
                .map(found -> new Place(found.start(), found.end()))
                .toList();
        return inOrder(read.isEmpty() ? literally(letter, path, draft) : read);
    }

    /** Entries of a list are numbered in the letter's order, so they are told apart by what they say. */
    private static boolean states(FoundField found, String path, Draft draft) {
        if (!path.contains("[")) {
            return found.field().equals(path) || found.field().startsWith(path + ".");
        }
        if (!unnumbered(found.field()).startsWith(unnumbered(path))) {
            return false;
        }
        var here = path + found.field().substring(lengthOfSame(found.field(), path));
        return draft.get(here)
                .filter(value -> value.asString().equals(found.value().asString()))
                .isPresent();
    }

    private static int lengthOfSame(String field, String path) {
        var rest = unnumbered(field).substring(unnumbered(path).length());
        return field.length() - rest.length();
    }

    private static String unnumbered(String path) {
        return ENTRY.matcher(path).replaceAll("[]");
    }

    private static List<Place> literally(String letter, String path, Draft draft) {
        return Optional.of(path)
                .flatMap(draft::get)
                .filter(value -> value.isString() && value.asString().strip().length() >= SHORTEST_LOOKED_FOR)
                .map(value -> {
                    var places = new ArrayList<Place>();
                    var matcher = Pattern.compile(
                                    Pattern.quote(value.asString().strip().toLowerCase(Locale.ROOT)))
                            .matcher(letter.toLowerCase(Locale.ROOT));
                    while (matcher.find()) {
                        places.add(new Place(matcher.start(), matcher.end()));
                    }
                    return List.copyOf(places);
                })
                .orElse(List.of());
    }

    /** The places in their order; those that touch become one. */
    static List<Place> inOrder(List<Place> places) {
        var ordered = new ArrayList<Place>();
        places.stream().sorted(Comparator.comparingInt(Place::start)).forEach(place -> {
            if (!ordered.isEmpty() && ordered.getLast().end() >= place.start()) {
                var before = ordered.removeLast();
                ordered.add(new Place(before.start(), Math.max(before.end(), place.end())));
            } else {
                ordered.add(place);
            }
        });
        return List.copyOf(ordered);
    }
}
