package limbqueue.reading;

import java.util.List;
import java.util.regex.Matcher;

/**
 * A sentence in the words that rules know: lower case, one blank between words, spelling repaired, abbreviations and
 * names brought to one form, numbers in digits. Each of its characters remembers where in the letter it came from.
 */
final class Sentence {

    /** What part of a letter a sentence stands under. */
    enum Section {
        NONE,
        MEDICINES,
        ALLERGIES,
        FAMILY,
        PLAN
    }

    final int number;
    final int paragraph;
    final String plain;
    final Section section;
    final Span whole;
    final List<Integer> clauseStarts;
    private final int[] from;
    private final int[] to;

    Sentence(int number, int paragraph, Section section, Span whole, String plain, int[] from, int[] to) {
        this.number = number;
        this.paragraph = paragraph;
        this.section = section;
        this.whole = whole;
        this.plain = plain;
        this.from = from;
        this.to = to;
        this.clauseStarts = Clauses.starts(plain);
    }

    /** The piece of the letter that became {@code plain} from {@code start} up to {@code end}. */
    Span span(int start, int end) {
        var first = start;
        var last = end;
        while (last - 1 > first && plain.charAt(last - 1) == ' ') {
            last--;
        }
        while (first < last - 1 && plain.charAt(first) == ' ') {
            first++;
        }
        return new Span(from[first], Math.max(to[last - 1], from[first] + 1));
    }

    Span span(Matcher match) {
        return span(match.start(), match.end());
    }

    Span span(Matcher match, int group) {
        return span(match.start(group), match.end(group));
    }

    /** Where the clause begins in which {@code position} lies. */
    int clauseStart(int position) {
        var start = 0;
        for (var next : clauseStarts) {
            if (next <= position) {
                start = next;
            }
        }
        return start;
    }

    /** Where the clause ends in which {@code position} lies. */
    int clauseEnd(int position) {
        for (var next : clauseStarts) {
            if (next > position) {
                return next;
            }
        }
        return plain.length();
    }

    /** Where the piece between commas begins in which {@code position} lies. */
    int pieceStart(int position) {
        var comma = plain.lastIndexOf(", ", Math.max(0, position - 1));
        return Math.max(comma < 0 ? 0 : comma + 2, clauseStart(position));
    }

    /** Where the piece between commas ends that goes on at {@code position}. */
    int pieceEnd(int position) {
        var comma = plain.indexOf(", ", position);
        var end = clauseEnd(Math.max(0, position - 1));
        return comma < 0 ? end : Math.min(comma, end);
    }

    boolean has(String word) {
        return plain.contains(word);
    }

    boolean hasAny(String... words) {
        for (var word : words) {
            if (plain.contains(word)) {
                return true;
            }
        }
        return false;
    }
}
