package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;

/** The lines of a letter that have words, trimmed, with the letters that character recognition took for digits. */
final class Lines {

    private static final int MOST = 5_000;
    private static final int LONGEST = 300;

    /** @param afterBlank whether an empty line stands above this one */
    record Line(int number, int start, int end, String text, boolean afterBlank) {
        Span span(int from, int to) {
            return new Span(start + from, start + to);
        }

        /** Its text before this place of the letter; of a line that is too long, as much of that as is kept. */
        String upTo(int place) {
            return text.substring(0, Math.clamp(place - start, 0, text.length()));
        }

        boolean holds(Span words) {
            return words.start() >= start && words.start() < end;
        }
    }

    private Lines() {}

    static List<Line> of(String text) {
        var lines = new ArrayList<Line>();
        var at = 0;
        var blank = false;
        while (at <= text.length() && lines.size() < MOST) {
            var next = text.indexOf('\n', at);
            var end = next < 0 ? text.length() : next;
            var from = at;
            var to = end;
            while (from < to && Character.isWhitespace(text.charAt(from))) {
                from++;
            }
            while (to > from && Character.isWhitespace(text.charAt(to - 1))) {
                to--;
            }
            if (from == to) {
                blank = true;
            } else {
                var words = legible(text.substring(from, Math.min(to, from + LONGEST)));
                lines.add(new Line(lines.size(), from, to, words, blank));
                blank = false;
            }
            if (next < 0) {
                break;
            }
            at = next + 1;
        }
        return lines;
    }

    /** {@code words} with letters for the digits inside of words, character for character: {@code CR0SS}, {@code Medica1}. */
    static String legible(String words) {
        var read = new StringBuilder(words);
        for (var i = 1; i < read.length(); i++) {
            var c = words.charAt(i);
            if (c != '0' && c != '1' && c != '|' && c != 'l') {
                continue;
            }
            var before = read.charAt(i - 1);
            var after = i + 1 < words.length() ? words.charAt(i + 1) : ' ';
            var capitals = i > 1 || Character.isUpperCase(after)
                    ? Character.isUpperCase(before)
                            && !Character.isLowerCase(after)
                            && (Character.isUpperCase(after) || i > 1 && Character.isUpperCase(read.charAt(i - 2)))
                    : false;
            if (!Character.isLetter(before) || Character.isDigit(after)) {
                continue;
            }
            if (c == 'l') {
                if (capitals) {
                    read.setCharAt(i, 'I');
                }
            } else if (Character.isLetter(after) || i > 1 && Character.isLetter(read.charAt(i - 2))) {
                read.setCharAt(i, c == '0' ? capitals ? 'O' : 'o' : capitals ? 'I' : 'l');
            }
        }
        return read.toString();
    }
}
