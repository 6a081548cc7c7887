package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Brings a piece of a letter to the form that rules read; see {@link Sentence}. */
final class Plain {

    private static final Map<String, Integer> NUMBERS = Map.ofEntries(
            Map.entry("zero", 0),
            Map.entry("nought", 0),
            Map.entry("one", 1),
            Map.entry("two", 2),
            Map.entry("three", 3),
            Map.entry("four", 4),
            Map.entry("five", 5),
            Map.entry("six", 6),
            Map.entry("seven", 7),
            Map.entry("eight", 8),
            Map.entry("nine", 9),
            Map.entry("ten", 10),
            Map.entry("eleven", 11),
            Map.entry("twelve", 12),
            Map.entry("thirteen", 13),
            Map.entry("fourteen", 14),
            Map.entry("fifteen", 15),
            Map.entry("sixteen", 16),
            Map.entry("seventeen", 17),
            Map.entry("eighteen", 18),
            Map.entry("nineteen", 19),
            Map.entry("twenty", 20),
            Map.entry("thirty", 30),
            Map.entry("forty", 40),
            Map.entry("fourty", 40),
            Map.entry("fifty", 50),
            Map.entry("sixty", 60),
            Map.entry("seventy", 70),
            Map.entry("eighty", 80),
            Map.entry("ninety", 90),
            Map.entry("dozen", 12));

    private static final Map<String, Integer> ORDINALS = Map.ofEntries(
            Map.entry("first", 1),
            Map.entry("second", 2),
            Map.entry("third", 3),
            Map.entry("fourth", 4),
            Map.entry("fifth", 5),
            Map.entry("sixth", 6),
            Map.entry("seventh", 7),
            Map.entry("eighth", 8),
            Map.entry("ninth", 9),
            Map.entry("tenth", 10),
            Map.entry("eleventh", 11),
            Map.entry("twelfth", 12),
            Map.entry("thirteenth", 13),
            Map.entry("fourteenth", 14),
            Map.entry("fifteenth", 15),
            Map.entry("sixteenth", 16),
            Map.entry("seventeenth", 17),
            Map.entry("eighteenth", 18),
            Map.entry("nineteenth", 19),
            Map.entry("twentieth", 20),
            Map.entry("thirtieth", 30));

    private static final String MONTH =
            "jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?";

    private static final Set<String> TITLES =
            Set.of("mr", "mrs", "ms", "miss", "dr", "prof", "professor", "sir", "sister", "nurse", "doctor");

    /** Words with digits in them that are words, not a number with its unit. */
    private static final String WORD_WITH_DIGITS =
            "[a-z]{1,2}\\d{1,2}[a-z]?|hba1c|tcpo2|paco2|spo2|po2|a1c|t[12]dm|dm[12]|covid19|cha2ds2|p2y12|1st|2nd|3rd|\\d{1,2}th|\\d{1,4}s";

    private final String text;
    private final String folded;
    private final List<Token> tokens = new ArrayList<>();

    /** A word, a number or a sign, and where it stands. */
    private static final class Token {
        final int start;
        final int end;
        final String text;
        final boolean blankBefore;

        Token(int start, int end, String text, boolean blankBefore) {
            this.start = start;
            this.end = end;
            this.text = text;
            this.blankBefore = blankBefore;
        }

        boolean isNumber() {
            return !text.isEmpty()
                    && isDigit(text.charAt(0))
                    && !text.contains("/")
                    && !isLetter(text.charAt(text.length() - 1));
        }
    }

    /** The result: the words, and for each character where it came from. */
    @SuppressWarnings("ArrayRecordComponent") // Within the reader only, and never compared.
    record Words(String plain, int[] from, int[] to) {}

    private Plain(String text, String folded) {
        this.text = text;
        this.folded = folded;
    }

    /** @param folded {@code text} as {@link #fold} gives it */
    static Words of(String text, String folded, int start, int end) {
        var plain = new Plain(text, folded);
        plain.tokenize(start, end);
        plain.joinSpaced();
        plain.joinPoints();
        plain.numbersInWords();
        plain.sides();
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

    private static String digitsFor(String raw) {
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
                merge(i, Math.min(last, tokens.size()), joined.toString());
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
                merge(i, end, joined.toString());
            }
        }
    }

    private boolean single(int i) {
        return tokens.get(i).text.length() == 1 && isLetter(tokens.get(i).text.charAt(0));
    }

    private boolean point(int i) {
        return tokens.get(i).text.equals(".") && !tokens.get(i).blankBefore;
    }

    private void merge(int first, int end, String text) {
        var merged = new Token(tokens.get(first).start, tokens.get(end - 1).end, text, tokens.get(first).blankBefore);
        tokens.subList(first, end).clear();
        tokens.add(first, merged);
    }

    private void numbersInWords() {
        for (var i = 0; i < tokens.size(); i++) {
            var word = tokens.get(i).text;
            if (word.equals("point") && i + 1 < tokens.size() && digit(i + 1)) {
                decimals(i);
            } else if (NUMBERS.containsKey(word) || word.equals("a") && hundredAt(i + 1)) {
                number(i);
            } else if (word.equals("couple") && i > 0) {
                couple(i);
            }
        }
        yearsInWords();
        scannedDates();
        for (var i = 0; i < tokens.size(); i++) {
            if (ORDINALS.containsKey(tokens.get(i).text)) {
                ordinal(i);
            } else if (Fit.matches(tokens.get(i).text, "o\\d")
                    && i + 1 < tokens.size()
                    && Fit.matches(tokens.get(i + 1).text, MONTH)) {
                merge(i, i + 1, "0" + tokens.get(i).text.charAt(1));
            }
        }
    }

    /** "Nineteen forty-one", which is a year. */
    private void yearsInWords() {
        for (var i = 0; i + 1 < tokens.size(); i++) {
            if (Fit.matches(tokens.get(i).text, "19|20")
                    && Fit.matches(tokens.get(i + 1).text, "\\d\\d")
                    && Character.isLetter(folded.charAt(tokens.get(i).start))
                    && Character.isLetter(folded.charAt(tokens.get(i + 1).start))) {
                merge(i, i + 2, tokens.get(i).text + tokens.get(i + 1).text);
            }
        }
    }

    /** "ll/16/1950", which is a date. */
    private void scannedDates() {
        for (var i = 0; i + 4 < tokens.size(); i++) {
            if (Fit.matches(tokens.get(i).text, "[lio]{1,2}")
                    && tokens.get(i + 1).text.equals("/")
                    && tokens.get(i + 2).isNumber()
                    && tokens.get(i + 3).text.equals("/")
                    && tokens.get(i + 4).isNumber()) {
                merge(i, i + 1, digitsFor(tokens.get(i).text));
            }
        }
    }

    /** "The fourth of June": elsewhere a word such as "second" is no number. */
    private void ordinal(int i) {
        var month = i + 1 < tokens.size() && tokens.get(i + 1).text.equals("of") ? i + 2 : i + 1;
        if (month >= tokens.size() || !Fit.matches(tokens.get(month).text, MONTH)) {
            return;
        }
        var word = tokens.get(i).text;
        if (ORDINALS.containsKey(word)) {
            var tens = i > 1 && tokens.get(i - 1).text.equals("-") && Fit.matches(tokens.get(i - 2).text, "20|30")
                    ? i - 2
                    : i > 0 && Fit.matches(tokens.get(i - 1).text, "20|30") ? i - 1 : i;
            var value = ORDINALS.get(word) + (tens < i ? Integer.parseInt(tokens.get(tens).text) : 0);
            merge(tens, i + 1, String.valueOf(value));
        }
    }

    private boolean hundredAt(int i) {
        return i < tokens.size()
                && (tokens.get(i).text.equals("hundred") || tokens.get(i).text.equals("dozen"));
    }

    private void couple(int i) {
        var end = i + 1 < tokens.size() && tokens.get(i + 1).text.equals("of") ? i + 2 : i + 1;
        var start = tokens.get(i - 1).text.equals("a") ? i - 1 : i;
        merge(start, end, "2");
    }

    private boolean digit(int i) {
        return Fit.matches(tokens.get(i).text, "\\d")
                || NUMBERS.getOrDefault(tokens.get(i).text, 10) < 10
                || tokens.get(i).text.equals("oh");
    }

    /** "Point six one", and "nought point six one". */
    private void decimals(int i) {
        var number = new StringBuilder("0.");
        var end = i + 1;
        while (end < tokens.size() && end < i + 4 && digit(end)) {
            var word = tokens.get(end).text;
            number.append(
                    word.equals("oh")
                            ? "0"
                            : NUMBERS.getOrDefault(word, 0) > 0 || NUMBERS.containsKey(word)
                                    ? String.valueOf(NUMBERS.get(word))
                                    : word);
            end++;
        }
        var start = i;
        if (i > 0 && Fit.matches(tokens.get(i - 1).text, "0|1|zero|nought|oh|o|one")) {
            start = i - 1;
            if (Fit.matches(tokens.get(start).text, "1|one")) {
                number.replace(0, 1, "1");
            }
        }
        if (number.length() > 2) {
            merge(start, end, number.toString());
        }
    }

    private void number(int first) {
        var total = 0;
        var part = 0;
        var end = first;
        var last = -1;
        while (end < tokens.size()) {
            var word = tokens.get(end).text;
            var value = NUMBERS.get(word);
            if (word.equals("-")
                    && end > first
                    && end + 1 < tokens.size()
                    && part >= 20
                    && NUMBERS.getOrDefault(tokens.get(end + 1).text, 99) < 10) {
                end++;
            } else if (value != null
                    && (end == first
                            || last >= 20 && last < 100 && value < 10 && value > 0
                            || last >= 100 && value < 100)) {
                part += value;
                last = value;
                end++;
            } else if (word.equals("a") && end == first) {
                part = 1;
                last = 1;
                end++;
            } else if (word.equals("dozen") && end > first) {
                part = Math.max(1, part) * 12;
                last = 1000;
                end++;
            } else if (word.equals("hundred") && end > first && part < 100) {
                part *= 100;
                last = 100;
                end++;
            } else if (word.equals("thousand") && end > first) {
                total += part * 1000;
                part = 0;
                last = 100;
                end++;
            } else if (word.equals("and")
                    && last >= 100
                    && end + 1 < tokens.size()
                    && NUMBERS.containsKey(tokens.get(end + 1).text)) {
                end++;
            } else {
                break;
            }
        }
        if (end < tokens.size() && tokens.get(end).text.equals("point") && end == first + 1) {
            return;
        }
        merge(first, end, String.valueOf(total + part));
    }

    /** Single letters that name a side, and words whose capitals matter. */
    private void sides() {
        var shouted = shouted();
        for (var i = 0; i < tokens.size(); i++) {
            var token = tokens.get(i);
            var original = text.substring(token.start, token.end);
            var meant = switch (original) {
                case "R", "L" -> isSide(i) ? original.equals("R") ? "right" : "left" : token.text;
                case "r", "l" ->
                    i + 1 < tokens.size() && isSide(i) && legWord(i + 1)
                            ? original.equals("r") ? "right" : "left"
                            : token.text;
                case "PT" -> shouted && !legMeasure(i) ? "patient" : "postib";
                case "pt", "Pt", "pt's" -> legMeasure(i) ? "postib" : "patient";
                case "PTA" -> besidePulses(i) ? "postib" : token.text;
                case "AT" -> shouted ? "at" : "ata";
                case "IC" -> shouted ? "ic" : "claudication";
                case "RP" -> "rest pain";
                default -> token.text;
            };
            if (!meant.equals(token.text)) {
                tokens.set(i, new Token(token.start, token.end, meant, token.blankBefore));
            }
        }
    }

    /** Whether the sentence is in capitals throughout, so that capitals mean nothing. */
    private boolean shouted() {
        var lower = 0;
        var upper = 0;
        for (var token : tokens) {
            for (var i = token.start; i < token.end; i++) {
                lower += Character.isLowerCase(text.charAt(i)) ? 1 : 0;
                upper += Character.isUpperCase(text.charAt(i)) ? 1 : 0;
            }
        }
        return upper > 12 && upper > 4 * lower;
    }

    private boolean legWord(int i) {
        return Fit.matches(
                tokens.get(i).text,
                "leg|foot|toe|calf|heel|thigh|limb|abi|abpi|hallux|great|big|dp|sfa|side|buttock|ankle");
    }

    /** Whether "PTA" is the posterior tibial artery: beside the other artery of the foot, or graded among pulses. */
    private boolean besidePulses(int i) {
        var foot = "dpa|dp|dorsalis|pedis|ata";
        if (i > 1
                && Fit.matches(tokens.get(i - 1).text, "/|&|and|or|nor|\\+")
                && Fit.matches(tokens.get(i - 2).text, foot)) {
            return true;
        }
        if (i + 2 < tokens.size()
                && Fit.matches(tokens.get(i + 1).text, "/|&|and|or|nor|\\+")
                && Fit.matches(tokens.get(i + 2).text, foot)) {
            return true;
        }
        var next = i + 1;
        while (next < tokens.size() && Fit.matches(tokens.get(next).text, "[:=(]|r|l|right|left|is|was|not|pulses?")) {
            next++;
        }
        return next < tokens.size()
                && Fit.matches(
                        tokens.get(next).text, "[rl]?[0-4]|\\+|palpable|absent|weak|present|felt|impalpable|faint")
                && tokens.stream().anyMatch(token -> Fit.matches(token.text, "pulses?|" + foot));
    }

    private boolean legMeasure(int i) {
        if (i + 1 < tokens.size()
                && Fit.matches(
                        tokens.get(i + 1).text,
                        "\\d+|palpable|absent|weak|pulse|pulses|pressure|\\+|=|present|:|faint|monophasic|biphasic|triphasic")) {
            return !tokens.get(i + 1).text.equals(":") || i > 0 && Fit.matches(tokens.get(i - 1).text, "dp|,|;|\\d+");
        }
        for (var j = Math.max(0, i - 3); j < Math.min(tokens.size(), i + 4); j++) {
            if (Fit.matches(tokens.get(j).text, "dp|dpa|dorsalis|popliteal|pop|ata")) {
                return true;
            }
        }
        return false;
    }

    /** Whether the single letter at {@code i} stands for a side and is not an initial, a unit or part of a name. */
    private boolean isSide(int i) {
        var token = tokens.get(i);
        var before = i > 0 ? tokens.get(i - 1) : null;
        var after = i + 1 < tokens.size() ? tokens.get(i + 1) : null;
        if (before != null) {
            if (TITLES.contains(before.text)) {
                return false;
            }
            if (before.text.equals(".") && i > 1 && TITLES.contains(tokens.get(i - 2).text)) {
                return false;
            }
            if (before.text.equals("/")
                    && i > 1
                    && !Fit.matches(tokens.get(i - 2).text, "r|l|right|left|o|w|abi|abpi|abis|dp|pt")
                    && !(tokens.get(i - 2).isNumber() && after != null && after.isNumber() && after.blankBefore)) {
                return false;
            }
            if (after != null
                    && after.text.equals("/")
                    && i + 2 < tokens.size()
                    && Fit.matches(tokens.get(i + 2).text, "o|t|v|f")) {
                return false;
            }
            if (before.text.equals("&") && after != null && Fit.matches(after.text, "[a-z]")) {
                return false;
            }
            if (!token.blankBefore
                    && (before.text.equals("-")
                            || before.text.equals("'")
                            || before.isNumber() && token.text.equals("l"))) {
                return before.text.equals("-") && !Character.isLetter(text.charAt(Math.max(0, before.start - 1)));
            }
        }
        if (after != null
                && after.text.equals("/")
                && i + 2 < tokens.size()
                && Fit.matches(tokens.get(i + 2).text, "o|t|v|f")) {
            return false;
        }
        if (after == null) {
            return before == null || !isName(before) || Lexicon.shipped().knows(before.text);
        }
        if (after.text.equals(".") && !after.blankBefore) {
            // An initial: "R. Smith"; but "absent on R. Next sentence" ends a sentence, and so is at the end of the
            // tokens.
            return i + 2 >= tokens.size()
                    || !isName(tokens.get(i + 2))
                    || Lexicon.shipped().knows(tokens.get(i + 2).text);
        }
        if (after.text.equals("'")) {
            return false;
        }
        return !isName(after) || Lexicon.shipped().knows(after.text);
    }

    /** Whether a word looks like a name: it begins with a capital and is not all capitals. */
    private boolean isName(Token token) {
        if (!Character.isUpperCase(text.charAt(token.start)) || token.end - token.start < 2 || token.isNumber()) {
            return false;
        }
        return Character.isLowerCase(text.charAt(token.end - 1));
    }

    /** Brings phrases to their one form, the longest first. */
    private void oneForm() {
        var lexicon = Lexicon.shipped();
        for (var i = 0; i < tokens.size(); i++) {
            for (var variant : lexicon.startingWith(tokens.get(i).text)) {
                var end = matches(variant.words(), i);
                if (end > 0) {
                    merge(i, end, variant.canonical());
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

    private static boolean isLetter(char c) {
        return c >= 'a' && c <= 'z' || c > 127 && Character.isLetter(c);
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }
}
