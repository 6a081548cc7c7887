package limbqueue.calendar;

import java.util.stream.Collectors;

/**
 * Lines of an iCalendar text of at most 75 octets, the rest on lines that begin with a blank (RFC 5545, section 3.1). No
 * character is cut in two, which the library's own folding, in characters, does not see to.
 */
final class FoldedLines {

    private static final int MOST_OCTETS = 75;
    private static final String END = "\r\n";

    private FoldedLines() {}

    /** @param text whole lines, each ended by CRLF */
    static String of(String text) {
        return text.lines().map(FoldedLines::folded).collect(Collectors.joining(END, "", END));
    }

    private static String folded(String line) {
        var folded = new StringBuilder(line.length() + 16);
        var octets = 0;
        for (var at = 0; at < line.length(); ) {
            var character = line.codePointAt(at);
            if (octets + octets(character) > MOST_OCTETS) {
                folded.append(END).append(' ');
                octets = 1;
            }
            folded.appendCodePoint(character);
            octets += octets(character);
            at += Character.charCount(character);
        }
        return folded.toString();
    }

    /** How many octets UTF-8 writes it in (RFC 3629, section 3). */
    private static int octets(int character) {
        if (character < 0x80) {
            return 1;
        }
        if (character < 0x800) {
            return 2;
        }
        return character < 0x10000 ? 3 : 4;
    }
}
