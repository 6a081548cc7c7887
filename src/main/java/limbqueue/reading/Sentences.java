package limbqueue.reading;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Parts a letter into sentences. A line's end parts them too, unless the line is merely full: then its text goes on in
 * the next.
 */
final class Sentences {

    /** Longer pieces without an end are cut, so that no text takes long to read. */
    static final int LONGEST = 900;

    private static final Set<String> ABBREVIATIONS = Set.of(
            "dr", "mr", "mrs", "ms", "prof", "st", "vs", "approx", "no", "nos", "tel", "fax", "eg", "ie", "ca", "jan",
            "feb", "mar", "apr", "jun", "jul", "aug", "sep", "sept", "oct", "nov", "dec", "rt", "lt", "bilat", "tab",
            "tabs", "cap", "ph", "dept", "resp", "temp", "inc", "ext", "ave", "rd", "e.g", "i.e", "a.m", "p.m", "sr",
            "jr", "ref", "hosp", "pop", "fem", "sup", "post", "ant", "art", "diag", "hx", "max", "min", "neg", "pos",
            "sys", "wt", "ht", "rev");

    private static final Pattern BULLET =
            Pattern.compile("(?:[-*>•]|\\d{1,2}[.)]|[a-z][)]|\\[[ x*]?\\]|[☐☑☒□■✓✔✗])(?: |$).*");
    private static final Pattern LABEL = Pattern.compile("[a-z][a-z0-9 /&().'-]{0,40}:.*");

    /** "Rest pain? No." */
    private static final Pattern ANSWER = Pattern.compile(" {0,3}(?:(?:yes|no|none|nil|never|y|n)(?: ?[.,;(]| {2}|$)"
            + "|[\\[(] ?[x\u2713\u2714]? ?[\\])] {0,2}(?:yes|no|y|n)\\b)");

    /** A line that ends so is not at its end, however short it is. */
    private static final Pattern BREAKS_OFF = Pattern.compile(
            "(?<=[a-z,] )(?:for|of|the|and|with|an|his|her|is|was|has|had|than|about|since|or|but|which|that|from|after|over|past|not|no|denies|without|any|onset)$");

    private record Line(int start, int end) {
        int length() {
            return end - start;
        }
    }

    private final String text;
    private final String folded;
    private final List<Sentence> sentences = new ArrayList<>();
    /** What whoever writes calls the patient, where that is a relative. */
    private final Set<String> patient;

    private Sentence.Section section = Sentence.Section.NONE;
    private int paragraph;
    private boolean headingHadWords;

    private Sentences(String text, String folded) {
        this.text = text;
        this.patient = Relative.patient(text);
        this.folded = folded;
    }

    static List<Sentence> of(String text, String folded) {
        var split = new Sentences(text, folded);
        split.read();
        return split.sentences;
    }

    private void read() {
        var lines = lines();
        var width = width(lines);
        var start = -1;
        var end = 0;
        for (var i = 0; i < lines.size(); i++) {
            var line = lines.get(i);
            if (line.length() == 0) {
                flush(start, end);
                start = -1;
                paragraph++;
                section = Sentence.Section.NONE;
                continue;
            }
            if (start >= 0 && ends(lines.get(i - 1), line, width)) {
                flush(start, end);
                start = -1;
            }
            start = start < 0 ? line.start() : start;
            end = line.end();
        }
        flush(start, end);
    }

    private List<Line> lines() {
        var lines = new ArrayList<Line>();
        var at = 0;
        while (at <= folded.length()) {
            var next = at;
            while (next < folded.length()
                    && folded.charAt(next) != '\n'
                    && folded.charAt(next) != '\r'
                    && folded.charAt(next) != '\f') {
                next++;
            }
            var start = at;
            var end = next;
            while (start < end && folded.charAt(start) == ' ') {
                start++;
            }
            while (end > start && folded.charAt(end - 1) == ' ') {
                end--;
            }
            lines.add(new Line(start, end));
            at = next + 1;
            if (next + 1 < folded.length() && folded.charAt(next) == '\r' && folded.charAt(next + 1) == '\n') {
                at++;
            }
        }
        return lines;
    }

    /** How wide the letter is set: nearly the longest line, since one line may run over. */
    private static int width(List<Line> lines) {
        var lengths = lines.stream()
                .map(Line::length)
                .filter(length -> length > 0)
                .sorted()
                .toList();
        if (lengths.isEmpty()) {
            return 0;
        }
        var longest = lengths.getLast();
        return lengths.size() < 8 ? longest : Math.min(longest, lengths.get(lengths.size() * 9 / 10) * 6 / 5);
    }

    private boolean ends(Line line, Line next, int width) {
        var words = folded.substring(next.start(), next.end());
        if (BULLET.matcher(words).matches() || folded.charAt(line.end() - 1) == ':') {
            return true;
        }
        if (isRule(words) || isRule(folded.substring(line.start(), line.end()))) {
            return true;
        }
        if (folded.charAt(line.end() - 1) == '-'
                && line.length() > 2
                && Character.isLetter(folded.charAt(line.end() - 2))
                && Character.isLowerCase(text.charAt(next.start()))) {
            return false;
        }
        var first = words.indexOf(' ') < 0 ? words.length() : words.indexOf(' ');
        var roomLeft = line.length() + 1 + first <= width;
        if (LABEL.matcher(words).matches()
                && words.indexOf(':') < 30
                && (roomLeft
                        || Character.isUpperCase(text.charAt(next.start()))
                                && words.substring(0, words.indexOf(':')).split(" ").length <= 3)) {
            return true;
        }
        if (!roomLeft
                || BREAKS_OFF
                        .matcher(folded.substring(line.start(), line.end()))
                        .find()) {
            return false;
        }
        var goesOn = Character.isLowerCase(text.charAt(next.start()))
                && line.length() * 10 >= width * 6
                && line.length() >= 30;
        return !goesOn;
    }

    /** A line that is only drawn. */
    private static boolean isRule(String line) {
        return line.length() >= 3 && line.chars().noneMatch(Character::isLetterOrDigit);
    }

    private void flush(int start, int end) {
        if (start < 0 || isRule(folded.substring(start, end)) && end - start > 4) {
            return;
        }
        if (headingHadWords) {
            section = Sentence.Section.NONE;
            headingHadWords = false;
        }
        var from = start;
        for (var i = start; i < end; i++) {
            var c = folded.charAt(i);
            if (c == ' ' && i > from && columnBegins(i, end)) {
                add(from, i);
                from = i + 1;
                continue;
            }
            if ((c == '.' || c == '!' || c == '?') && endsHere(from, i, end)
                    || i - from >= LONGEST && c == ' '
                    || i - from >= 2 * LONGEST) {
                add(from, i + 1);
                from = i + 1;
            }
        }
        add(from, end);
    }

    /** Two blanks and a label: the next field of a form. */
    private boolean columnBegins(int i, int end) {
        if (i + 3 >= end || folded.charAt(i + 1) != ' ' || folded.charAt(i - 1) == ' ') {
            return false;
        }
        var at = i + 1;
        while (at < end && folded.charAt(at) == ' ') {
            at++;
        }
        if (at >= end || !Character.isUpperCase(text.charAt(at)) || at - i < 2) {
            return false;
        }
        var label = at;
        while (label < end
                && label - at < 28
                && (Character.isLetterOrDigit(folded.charAt(label)) || " /'.-()".indexOf(folded.charAt(label)) >= 0)) {
            if (label + 1 < end && folded.charAt(label) == ' ' && folded.charAt(label + 1) == ' ') {
                return false;
            }
            label++;
        }
        var name = folded.substring(at, Math.min(label, end)).strip();
        return label < end
                && folded.charAt(label) == ':'
                && !Fit.matches(name, "(?:right|left|rt|lt|r|l)(?: leg| foot| side)?");
    }

    private boolean endsHere(int from, int i, int end) {
        if (i + 1 >= end) {
            return true;
        }
        var after = folded.charAt(i + 1);
        if (folded.charAt(i) == '?') {
            if (ANSWER.matcher(folded).region(i + 1, end).lookingAt()) {
                return false;
            }
            // A question mark before a word doubts it: "?osteomyelitis", "? AF".
            if (i == from || folded.charAt(i - 1) == ' ' || after != ' ' && after != '\n' && after != '\r') {
                return false;
            }
        }
        if (after == '"' || after == '\'' || after == ')') {
            return i + 2 >= end || Character.isWhitespace(folded.charAt(i + 2));
        }
        if (!Character.isWhitespace(after)) {
            return folded.charAt(i) == '.'
                    && i >= 3
                    && letters(i - 3, i)
                    && i + 2 < end
                    && Character.isUpperCase(text.charAt(i + 1))
                    && Character.isLowerCase(text.charAt(i + 2));
        }
        if (folded.charAt(i) != '.') {
            return true;
        }
        if (leader(i)) {
            return false;
        }
        var wordStart = i;
        while (wordStart > from
                && !Character.isWhitespace(folded.charAt(wordStart - 1))
                && folded.charAt(wordStart - 1) != '(') {
            wordStart--;
        }
        var word = folded.substring(wordStart, i);
        var next = i + 1;
        while (next < end && Character.isWhitespace(folded.charAt(next))) {
            next++;
        }
        if (next >= end) {
            return true;
        }
        var begins = text.charAt(next);
        if (word.isEmpty()) {
            return true;
        }
        if (word.length() <= 2 && i - word.length() == from && word.chars().allMatch(Character::isDigit)) {
            return false;
        }
        if (Fit.matches(word, "rt|lt")
                && Fit.matches(folded.substring(next, Math.min(end, next + 6)), "(?s)(?:rt|lt|left|right)\\b.*")) {
            return true;
        }
        if (ABBREVIATIONS.contains(word)) {
            return Fit.matches(word, "rt|lt|wt|ht|bilat|neg|pos|pop|fem|no|max|min")
                    && Character.isUpperCase(begins)
                    && sentenceStarts(next, end);
        }
        if (word.length() == 1 && Character.isLetter(word.charAt(0))) {
            var capital = Character.isUpperCase(text.charAt(wordStart));
            if (word.equals("b") && Character.isDigit(begins)) {
                return false;
            }
            return !capital
                    || (word.equals("r") || word.equals("l"))
                            && wordStart - 2 >= from
                            && Character.isLowerCase(text.charAt(wordStart - 2))
                    || (word.equals("r") || word.equals("l"))
                            && wordStart - 2 >= from
                            && (Character.isDigit(text.charAt(wordStart - 2)) || text.charAt(wordStart - 2) == ',');
        }
        if (word.indexOf('.') > 0 && Fit.matches(word, "[a-z](\\.[a-z])+")) {
            return Character.isUpperCase(begins) && !word.equals("e.g") && !word.equals("i.e");
        }
        return true;
    }

    /** Whether the point at {@code i} is one of the row of points that leads from a question to its answer. */
    private boolean leader(int i) {
        return folded.startsWith("....", i) || i >= 3 && folded.startsWith("....", i - 3);
    }

    private boolean sentenceStarts(int next, int end) {
        return next + 1 < end && Character.isLowerCase(text.charAt(next + 1)) && next + 3 < end;
    }

    private boolean letters(int start, int end) {
        for (var i = start; i < end; i++) {
            if (!Character.isLowerCase(text.charAt(i))) {
                return false;
            }
        }
        return true;
    }

    private void add(int start, int end) {
        var from = start;
        var to = end;
        while (from < to && Character.isWhitespace(folded.charAt(from))) {
            from++;
        }
        while (to > from && Character.isWhitespace(folded.charAt(to - 1))) {
            to--;
        }
        if (from == to) {
            return;
        }
        var words = Plain.of(text, folded, from, to, patient);
        if (words.plain().isEmpty()) {
            return;
        }
        var before = section;
        section = Headings.sectionAfter(section, words.plain());
        if (section != before || section != Sentence.Section.NONE && Headings.isHeading(words.plain())) {
            var colon = words.plain().indexOf(':');
            headingHadWords = colon >= 0 && colon + 2 < words.plain().length();
        }
        sentences.add(new Sentence(
                sentences.size(), paragraph, section, new Span(from, to), words.plain(), words.from(), words.to()));
    }
}
