package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/** Brings a piece of a letter to the form that rules read; see {@link Sentence}. */
final class Plain {

    /** Words with digits in them that are words, not a number with its unit. */
    private static final String WORD_WITH_DIGITS =
            "[a-z]{1,2}\\d{1,2}[a-z]?|hba1c|tcpo2|paco2|spo2|po2|a1c|t[12]dm|dm[12]|covid19|cha2ds2|p2y12|1st|2nd|3rd|\\d{1,2}th|\\d{1,4}s";

    private final String text;
    private final String folded;
    private final List<Token> tokens = new ArrayList<>();

    /** The result: the words, and for each character where it came from. */
    @SuppressWarnings("ArrayRecordComponent") // Within the reader only, and never compared.
    record Words(String plain, int[] from, int[] to) {}

    private Plain(String text, String folded) {
        this.text = text;
        this.folded = folded;
    }

    /**
     * @param folded {@code text} as {@link #fold} gives it
     * @param patient what whoever writes calls the patient, such as "dad"; empty but in letters of relatives
     */
    static Words of(String text, String folded, int start, int end, Set<String> patient) {
        var plain = new Plain(text, folded);
        plain.tokenize(start, end);
        plain.joinSpaced();
        plain.joinPoints();
        new NumberWords(plain.tokens, folded).read();
        plain.patient(patient);
        new SideLetters(plain.tokens, text).read();
        plain.oneForm();
        return plain.words();
    }

    /** {@code text} in lower case and with plain quotes, dashes and blanks, char for char. */
    static String fold(String text) {
        var folded = new char[text.length()];
        for (var i = 0; i < folded.length; i++) {
            var c = text.charAt(i);
            folded[i] = switch (c) {
                case '\u2018', '\u2019', '\u201b', '\u00b4', '`' -> '\'';
                case '\u201c', '\u201d', '\u201e', '\u00ab', '\u00bb' -> '"';
                case '\u2010', '\u2011', '\u2012', '\u2013', '\u2014', '\u2212', '\u00ad' -> '-';
                case '\u00a0', '\u2007', '\u202f', '\u2009', '\t', '\u200b', '\ufeff' -> ' ';
                case '\u00d7' -> 'x';
                case '\u00b5', '\u03bc' -> '\u00b5';
                case '\u2022', '\u25cf', '\u25aa', '\u2023', '\u00b7' -> '*';
                case '\u0130' -> 'i';
                default -> Character.toLowerCase(c);
            };
        }
        return new String(folded);
    }

    private void tokenize(int start, int end) {
        var i = start;
        var blank = false;
        while (i < end) {
            var c = folded.charAt(i);
            if (Character.isWhitespace(c)) {
                blank = true;
                i++;
                continue;
            }
            var from = i;
            if (isLetter(c)
                    || isDigit(c)
                    || c == '.' && i + 1 < end && isDigit(folded.charAt(i + 1)) && !digitBefore(i)) {
                i = word(i, end);
                split(from, i, blank);
            } else if (c == '-' && i > start && isLetter(folded.charAt(i - 1)) && brokenWord(i, end) > 0) {
                i = rejoin(i, end);
            } else if (folded.startsWith("....", i)) {
                while (i < end && folded.charAt(i) == '.') {
                    i++;
                }
                tokens.add(new Token(from, i, ":", blank));
            } else {
                i++;
                tokens.add(new Token(from, i, sign(c), blank));
            }
            blank = false;
        }
    }

    private static String sign(char c) {
        return switch (c) {
            case '\u00bd' -> "1/2";
            case '\u00bc' -> "1/4";
            case '\u00be' -> "3/4";
            case '\u2264' -> "<";
            case '\u2265' -> ">";
            default -> String.valueOf(c);
        };
    }

    private boolean digitBefore(int i) {
        return i > 0 && isDigit(folded.charAt(i - 1));
    }

    /** Where a word continues that a line's end has broken at the hyphen at {@code i}; 0 when it does not. */
    private int brokenWord(int i, int end) {
        var next = i + 1;
        var lines = 0;
        while (next < end && Character.isWhitespace(folded.charAt(next))) {
            lines += folded.charAt(next) == '\n' ? 1 : 0;
            next++;
        }
        return lines == 1 && next < end && Character.isLowerCase(text.charAt(next)) && isLetter(folded.charAt(next))
                ? next
                : 0;
    }

    private int rejoin(int hyphen, int end) {
        var next = brokenWord(hyphen, end);
        var last = tokens.getLast();
        var wordEnd = word(next, end);
        var joined = last.text + folded.substring(next, wordEnd);
        var lexicon = Lexicon.shipped();
        if (lexicon.knows(joined) || lexicon.knows(lexicon.repair(joined)) || !lexicon.knows(last.text)) {
            tokens.removeLast();
            tokens.add(new Token(last.start, wordEnd, lexicon.repair(joined), last.blankBefore));
            return wordEnd;
        }
        tokens.add(new Token(hyphen, hyphen + 1, "-", false));
        return hyphen + 1;
    }

    /** Where the run of letters and digits that begins at {@code start} ends. */
    private int word(int start, int end) {
        var i = start;
        while (i < end) {
            var c = folded.charAt(i);
            var inner = i > start && i + 1 < end;
            if (isLetter(c) || isDigit(c)) {
                i++;
            } else if (c == '\'' && inner && isLetter(folded.charAt(i - 1)) && isLetter(folded.charAt(i + 1))) {
                i++;
            } else if ((c == '.' || c == ',') && i + 1 < end && numberGoesOn(start, i, end)) {
                i++;
            } else if (c == '|' && inner && isLetter(folded.charAt(i - 1)) && isLetter(folded.charAt(i + 1))) {
                i++;
            } else {
                break;
            }
        }
        return Math.max(i, start + 1);
    }

    /** Whether the point or comma at {@code i} stands inside a number, such as 0.61, O.61, 0,61 or 1,200. */
    private boolean numberGoesOn(int start, int i, int end) {
        var next = folded.charAt(i + 1);
        if (!isDigit(next) && !(next == 'o' && i + 2 < end && isDigit(folded.charAt(i + 2)))) {
            return false;
        }
        var before = i - 1 >= start ? folded.charAt(i - 1) : ' ';
        if (folded.charAt(i) == '.') {
            return i == start
                    || isDigit(before)
                    || before == 'o' && (i - 1 == start)
                    || before == 'r'
                    || before == 'l'
                    || i - 1 > start && !isLetter(folded.charAt(i - 2)) && before == 'o';
        }
        var digits = 0;
        while (i + 1 + digits < end && isDigit(folded.charAt(i + 1 + digits))) {
            digits++;
        }
        var whole = i - start;
        var zero = before == '0' || before == 'o';
        return isDigit(before) && (digits == 3 && whole <= 3 && !zero || digits <= 2 && zero && whole == 1)
                || before == 'o' && whole == 1 && digits <= 2;
    }

    /** Takes a run apart into number and unit, or side and number, and repairs what is damaged. */
    private void split(int start, int end, boolean blank) {
        var raw = folded.substring(start, end);
        var lexicon = Lexicon.shipped();
        if (Fit.matches(raw, "l[1-5]") && text.charAt(start) == 'L') {
            tokens.add(new Token(start, end, raw, blank));
            return;
        }
        if (allLetters(raw)) {
            tokens.add(new Token(start, end, lexicon.repair(raw), blank));
            return;
        }
        if (allNumber(raw)) {
            tokens.add(new Token(start, end, number(raw), blank));
            return;
        }
        if (lexicon.knows(raw)) {
            tokens.add(new Token(start, end, raw, blank));
            return;
        }
        var capital = Character.isUpperCase(text.charAt(start));
        if (capital && Fit.matches(raw, "[rl](?:\\d{2,3}|\\d?\\.\\d+|\\d\\.\\d+)")) {
            tokens.add(new Token(start, start + 1, raw.startsWith("r") ? "right" : "left", blank));
            tokens.add(new Token(start + 1, end, number(raw.substring(1)), true));
            return;
        }
        if (looksScanned(start, end)) {
            tokens.add(new Token(start, end, number(digitsFor(raw)), blank));
            return;
        }
        if (Fit.matches(raw, "x\\d{1,3}(?:d|w|m|y|hrs?|days?|wks?|weeks?|mths?|months?|yrs?|years?)")) {
            pieces(start, end, blank);
            return;
        }
        var repaired = lexicon.repair(raw);
        if (repaired.equals(raw)
                && Fit.matches(raw, "[a-z]{1,}[a-z'01|]*[a-z]{1,}[01|]*")
                && raw.length() >= 4
                && text.charAt(start) != Character.toUpperCase(text.charAt(end - 1))) {
            repaired = lexicon.repair(raw.replace('0', 'o').replace('1', 'l').replace('|', 'l'));
        }
        if (!repaired.equals(raw) || Fit.matches(raw, WORD_WITH_DIGITS)) {
            tokens.add(new Token(start, end, repaired, blank));
            return;
        }
        pieces(start, end, blank);
    }

    /** Whether a run is a number in which character recognition has taken digits for letters: l2O, O.61, 4l. A capital L is a side. */
    private boolean looksScanned(int start, int end) {
        var digits = 0;
        for (var i = start; i < end; i++) {
            var c = text.charAt(i);
            if (isDigit(c)) {
                digits++;
            } else if ("lIOo|.,".indexOf(c) < 0) {
                return false;
            }
        }
        var last = text.charAt(end - 1);
        return digits > 0
                && (end - start > 2
                        || last != 'o'
                                && !(last == 'l' && digits == 1 && end - start == 2 && text.charAt(start) == '5'));
    }

    static String digitsFor(String raw) {
        return raw.replace('o', '0').replace('l', '1').replace('i', '1').replace('|', '1');
    }

    private void pieces(int start, int end, boolean blank) {
        var at = start;
        var first = true;
        while (at < end) {
            var number = !isLetter(folded.charAt(at));
            var next = at + 1;
            while (next < end && isLetter(folded.charAt(next)) != number && !(folded.charAt(next) == '\'' && number)) {
                next++;
            }
            var piece = folded.substring(at, next);
            tokens.add(new Token(
                    at,
                    next,
                    number && allNumber(piece)
                            ? number(piece)
                            : Lexicon.shipped().repair(piece),
                    first ? blank : true));
            first = false;
            at = next;
        }
    }

    private static boolean allLetters(String raw) {
        for (var i = 0; i < raw.length(); i++) {
            var c = raw.charAt(i);
            if (!isLetter(c) && c != '\'') {
                return false;
            }
        }
        return true;
    }

    private static boolean allNumber(String raw) {
        for (var i = 0; i < raw.length(); i++) {
            var c = raw.charAt(i);
            if (!isDigit(c) && c != '.' && c != ',') {
                return false;
            }
        }
        return true;
    }

    private static String number(String raw) {
        var plain = raw;
        var comma = raw.indexOf(',');
        if (comma > 0) {
            plain = raw.length() - comma - 1 == 3 && raw.charAt(0) != '0'
                    ? raw.replace(",", "")
                    : raw.replace(',', '.');
        }
        plain = plain.replace('o', '0').replace('l', '1');
        return plain.startsWith(".") ? "0" + plain : plain;
    }

    /** Makes {@code b.d.} and {@code p.o.} one word. */
    private void joinPoints() {
        for (var i = 0; i + 2 < tokens.size(); i++) {
            if (!single(i) || !point(i + 1)) {
                continue;
            }
            var last = i + 2;
            var joined = new StringBuilder(tokens.get(i).text);
            while (last < tokens.size() && single(last) && !tokens.get(last).blankBefore) {
                joined.append(tokens.get(last).text);
                if (last + 1 < tokens.size() && point(last + 1)) {
                    last += 2;
                } else {
                    last++;
                    break;
                }
            }
            if (joined.length() > 1) {
                Token.merge(tokens, i, Math.min(last, tokens.size()), joined.toString());
            }
        }
    }

    /** Makes a word of a stamp one word that is printed with blanks between its letters. */
    private void joinSpaced() {
        for (var i = 0; i + 4 < tokens.size(); i++) {
            var end = i;
            var joined = new StringBuilder();
            while (end < tokens.size() && single(end)) {
                joined.append(tokens.get(end++).text);
            }
            if (joined.length() > 4 && Lexicon.shipped().knows(joined.toString())) {
                Token.merge(tokens, i, end, joined.toString());
            }
        }
    }

    private boolean single(int i) {
        return tokens.get(i).text.length() == 1 && isLetter(tokens.get(i).text.charAt(0));
    }

    private boolean point(int i) {
        return tokens.get(i).text.equals(".") && !tokens.get(i).blankBefore;
    }

    /** "My dad" becomes the patient; "his father" stays who he is. */
    private void patient(Set<String> names) {
        for (var i = 0; i < tokens.size() && !names.isEmpty(); i++) {
            var word = tokens.get(i).text;
            var owns = word.endsWith("'s");
            if (!names.contains(owns ? word.substring(0, word.length() - 2) : word)) {
                continue;
            }
            var before = i == 0 ? "" : tokens.get(i - 1).text;
            if (before.equals("my") || before.equals("our")) {
                Token.merge(tokens, i - 1, i + 1, owns ? "patient's" : "patient");
                i--;
            } else if (!Fit.matches(before, "his|her|their|your|whose|the|an?|.*'s|-")) {
                Token.merge(tokens, i, i + 1, owns ? "patient's" : "patient");
            }
        }
    }

    /** Brings phrases to their one form, the longest first. */
    private void oneForm() {
        var lexicon = Lexicon.shipped();
        for (var i = 0; i < tokens.size(); i++) {
            for (var variant : lexicon.startingWith(tokens.get(i).text)) {
                var end = matches(variant.words(), i);
                if (end > 0) {
                    Token.merge(tokens, i, end, variant.canonical());
                    break;
                }
            }
        }
    }

    /** Where the phrase ends that begins at {@code i}; 0 when it is another. */
    private int matches(List<String> words, int i) {
        var at = i;
        for (var k = 0; k < words.size(); k++) {
            if (k > 0 && at < tokens.size() && tokens.get(at).text.equals("-")) {
                at++;
            } else if (k > 0
                    && at + 1 < tokens.size()
                    && tokens.get(at).text.equals(".")
                    && !tokens.get(at).blankBefore
                    && tokens.get(at - 1).text.length() <= 4) {
                at++;
            }
            if (at >= tokens.size()) {
                return 0;
            }
            var word = words.get(k);
            if (tokens.get(at).text.equals(word)) {
                at++;
            } else if (word.indexOf('/') > 0 || word.endsWith("+")) {
                var run = new StringBuilder();
                var next = at;
                while (next < tokens.size() && run.length() < word.length()) {
                    run.append(tokens.get(next++).text);
                }
                if (!run.toString().equals(word)) {
                    return 0;
                }
                at = next;
            } else {
                return 0;
            }
        }
        return at;
    }

    private Words words() {
        var plain = new StringBuilder();
        var from = new ArrayList<Integer>();
        var to = new ArrayList<Integer>();
        var previousEnd = tokens.isEmpty() ? 0 : tokens.getFirst().start;
        for (var token : tokens) {
            if (!plain.isEmpty() && token.blankBefore) {
                plain.append(' ');
                from.add(previousEnd);
                to.add(Math.max(token.start, previousEnd));
            }
            var same = token.text.length() == token.end - token.start;
            for (var k = 0; k < token.text.length(); k++) {
                plain.append(token.text.charAt(k));
                from.add(same ? token.start + k : token.start);
                to.add(same ? token.start + k + 1 : token.end);
            }
            previousEnd = token.end;
        }
        return new Words(
                plain.toString(),
                from.stream().mapToInt(Integer::intValue).toArray(),
                to.stream().mapToInt(Integer::intValue).toArray());
    }

    static boolean isLetter(char c) {
        return c >= 'a' && c <= 'z' || c > 127 && Character.isLetter(c);
    }

    static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }
}
