package limbqueue.search;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * A place where words that were sought stand.
 *
 * @param where what kind of place, as {@code Referring letter}
 * @param pieces the words of the place, those sought apart from the others
 */
public record Extract(String where, List<Piece> pieces) {

    /** How much of a long text is shown around the first word sought, in characters. */
    private static final int BEFORE = 60;

    private static final int AFTER = 160;

    /** @param sought whether these words were sought */
    public record Piece(String text, boolean sought) {}

    public Extract {
        pieces = List.copyOf(pieces);
    }

    /** The part of {@code text} around the first word sought; empty if none is in it. */
    static Optional<Extract> of(String where, String text, Sought sought) {
        var words = Folded.words(text).stream()
                .filter(word -> sought.has(word.folded()))
                .toList();
        if (words.isEmpty()) {
            return Optional.empty();
        }
        var first = words.getFirst();
        var from = startOfWord(text, first.start() - BEFORE);
        var to = endOfWord(text, first.end() + AFTER);
        var pieces = new ArrayList<Piece>();
        if (from > 0) {
            pieces.add(new Piece("… ", false));
        }
        var at = from;
        for (var word : words) {
            if (word.end() > to) {
                break;
            }
            if (word.start() > at) {
                pieces.add(new Piece(text.substring(at, word.start()), false));
            }
            pieces.add(new Piece(text.substring(word.start(), word.end()), true));
            at = word.end();
        }
        if (at < to) {
            pieces.add(new Piece(text.substring(at, to), false));
        }
        if (to < text.length()) {
            pieces.add(new Piece(" …", false));
        }
        return Optional.of(new Extract(where, pieces));
    }

    private static int startOfWord(String text, int at) {
        if (at <= 0) {
            return 0;
        }
        var start = at;
        while (start < text.length() && !Character.isWhitespace(text.charAt(start)) && start < at + BEFORE) {
            start++;
        }
        while (start < text.length() && Character.isWhitespace(text.charAt(start))) {
            start++;
        }
        return start < at + BEFORE ? start : at;
    }

    private static int endOfWord(String text, int at) {
        if (at >= text.length()) {
            return text.length();
        }
        var end = at;
        while (end > 0 && !Character.isWhitespace(text.charAt(end)) && end > at - BEFORE) {
            end--;
        }
        var cut = end > at - BEFORE ? end : at;
        // Never between the two halves of one character.
        return Character.isLowSurrogate(text.charAt(cut)) ? cut + 1 : cut;
    }
}
