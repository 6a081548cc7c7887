package limbqueue.reading;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * Pulses written as a grid: places, sides and grades without words between them, pairs for two legs or two arteries, boxes
 * to tick. Either the whole row fits one way of writing or nothing of it is read, so that no grade moves to its neighbour.
 */
final class PulseGrid {

    /** What was felt at some places; without sides where the row names none. */
    record Cell(List<String> places, String value, Optional<Set<Side>> sides, int start, int end) {}

    private static final String GRADE =
            "(?:[0-4]\\+{1,2}|[0-4](?!\\d|\\.\\d)|\\+{1,3}|-|(?:not |non ?-? ?)(?:palpable|felt|present)|"
                    + "impalpable|absent|nil|weak|faint|diminished|reduced|trace|palpable|present|felt|good|normal|strong)(?![a-z\\d])";
    private static final String OF_FOUR = "[0-4] ?/ ?[34](?![\\d/+]|\\.\\d)";
    private static final Pattern VALUE = Pattern.compile(GRADE + "(?: ?/ ?" + GRADE + ")*");
    private static final Pattern SIDE =
            Pattern.compile("(?:right|left|bilateral)\\b(?: (?:leg|foot|side|limb))?|[rl](?=[0-4]\\+?(?!\\d|\\.\\d))");
    private static final Pattern ORDER = Pattern.compile("\\(?(right|left) ?/ ?(?:right|left)\\b\\)?");
    private static final String LETTER = "[fpdt](?= ?[:=]? ?(?:[0-4]\\+?(?!\\d|\\.\\d)|\\+))";
    private static final String NAME =
            "(?:femoral|cfa|popliteal|dp|postib|pedal|pt(?=[0-4])|" + LETTER + ")(?: pulses?)?(?![a-z])";
    private static final String NAME_OF_MANY = "(?:femoral|fem|f|cfa|popliteal|pop|p|dp|d|postib|pt|patient|t)\\b";
    private static final Pattern PLACE = Pattern.compile(
            NAME_OF_MANY + "(?: ?/ ?" + NAME_OF_MANY + ")+(?: pulses?)?|" + NAME + "(?: ?(?:&|and|,) ?" + NAME + ")*");
    /** "DP + PT 0" joins, "fem + pop - DP -" tells what was felt. */
    private static final Pattern LONE_PLUS =
            Pattern.compile("[a-z] \\+ ?(?:femoral|popliteal|dp|postib|pedal|[fpdt]\\b)");

    private static final Pattern BETWEEN = Pattern.compile(
            "[ ,;:=()|.]+|- |(?:pulses?|peripheral|lower|limbs?|legs?|foot|on|in|the|are|is|vascular|exam|examination)\\b");
    private static final Pattern SCALE = Pattern.compile(
            "\\(?(?:on (?:a |the )?)?(?:scale|graded?|grading)?(?: of)? ?:? ?\\b0 ?(?:-|to) ?[2-4](?: scale)?\\b\\)?|\\bout of [2-4]\\b");
    private static final Pattern BEFORE = Pattern.compile("^[^;]*?\\bpulses?\\b(?! (?:in|of))");
    private static final Pattern NAMES_A_PLACE =
            Pattern.compile("\\b(?:femoral|cfa|popliteal|dp|postib|pedal|left|right|bilateral)\\b");
    private static final Pattern PLACE_LATER = Pattern.compile("\\b(?:femoral|cfa|popliteal|dp|postib|pedal)\\b");
    private static final Pattern ENDS = Pattern.compile("[,;.(] ?\\S| (?:with|but)\\b");

    /** Letters for places, or pairs of grades: read word by word, their values would move. */
    private static final Pattern RISKY = Pattern.compile("\\bf ?[:=]? ?(?:[0-4]|\\+)[^a-z]{0,6}p ?[:=]? ?(?:[0-4]|\\+)"
            + "|(?:\\b(?:absent|weak|present|palpable|faint|nil)|[0-4]\\+)/(?:absent|weak|present|palpable|faint|nil|[0-4]\\b)"
            + "|-/-|\\+/\\+|-/\\+|\\b[0-4]/[0-2]\\b(?!/)");

    private static final Pattern SURELY_PAIRS = Pattern.compile("-/-|\\+/\\+|-/\\+");

    private static final Pattern BOX =
            Pattern.compile("[\\[(] ?([xy\u2713\u2714])? ?[\\])]|([\u2611\u2612\u2714])|\u2610");
    private static final Pattern BOX_OF_PULSE = Pattern.compile(
            "(?:[\\[(] ?[xy\u2713\u2714]? ?[\\])]|[\u2610\u2611\u2612\u2714]) ?"
                    + "(?:(?:right|left|bilateral) )?(?:femoral|popliteal|dp|postib|pedal|palpable|absent|present|weak|not palpable)\\b");
    private static final Pattern FELT = Pattern.compile(
            "\\b(?:not (?:palpable|felt|present)|non ?-? ?palpable|impalpable|absent|weak|faint|diminished|reduced|palpable|present|felt)\\b");

    private record Token(
            char kind, int start, int end, Set<Side> sides, List<List<String>> places, List<String> values) {}

    private final String plain;
    private final Optional<Side> first;
    private final List<Token> tokens = new ArrayList<>();
    private final List<Cell> cells = new ArrayList<>();
    private boolean letters;
    private boolean pairs;
    private int bare;
    private int end;

    private PulseGrid(String plain, Optional<Side> first) {
        this.plain = plain;
        this.first = first;
    }

    /** The side that is told first in every pair of this sentence: "(R/L)". */
    static Optional<Side> order(String plain) {
        var order = ORDER.matcher(plain);
        return order.find() ? Optional.of(side(order.group(1))) : Optional.empty();
    }

    /**
     * The cells of a sentence that is a grid; none where it is one that can be read in several ways; empty where it is no
     * grid.
     *
     * @param heading the side that a heading before the sentence tells first
     */
    static Optional<List<Cell>> of(String plain, Optional<Side> heading) {
        if (BOX_OF_PULSE.matcher(plain).find()) {
            return Optional.of(boxes(plain));
        }
        var grid = new PulseGrid(plain, order(plain).or(() -> heading));
        var risky = RISKY.matcher(plain).find();
        grid.tokenize();
        if (!(grid.letters || grid.pairs || grid.bare >= 2 || grid.isHeader() || risky)) {
            return Optional.empty();
        }
        var rest = plain.substring(grid.end);
        var fits = grid.fits()
                && (rest.isBlank() || ENDS.matcher(rest).lookingAt())
                && (grid.namesSides() || !Fit.matches(rest, "(?s).*\\b(?:left|right|bilateral)\\b.*"));
        if (LONE_PLUS.matcher(plain).find()
                && grid.tokens.stream().noneMatch(token -> token.kind() == 'V' && plain.charAt(token.start()) == '-')) {
            var graded = grid.tokens.stream()
                    .anyMatch(token -> token.kind() == 'V' && Character.isDigit(plain.charAt(token.start())));
            return risky || grid.letters || graded ? Optional.of(List.of()) : Optional.empty();
        }
        var certain = grid.letters || grid.pairs || grid.isHeader() || risky;
        if (fits && (certain || !PLACE_LATER.matcher(rest).find())) {
            return Optional.of(grid.cells);
        }
        return certain ? Optional.of(List.of()) : Optional.empty();
    }

    private static Side side(String word) {
        return word.startsWith("l") ? Side.LEFT : Side.RIGHT;
    }

    private static String blank(String text, Pattern pattern) {
        return pattern.matcher(text)
                .replaceAll(match -> " ".repeat(match.group().length()));
    }

    private void tokenize() {
        var row = blank(blank(plain, SCALE), ORDER);
        var before = BEFORE.matcher(row);
        var at = before.find() && !NAMES_A_PLACE.matcher(before.group()).find() ? before.end() : 0;
        end = at;
        while (at < row.length()) {
            var next = token(row, at);
            if (next > at) {
                end = next;
            } else {
                var between = BETWEEN.matcher(row).region(at, row.length()).useTransparentBounds(true);
                if (between.lookingAt()) {
                    next = between.end();
                } else if (tokens.isEmpty()) {
                    next = row.indexOf(' ', at) < 0 ? row.length() : row.indexOf(' ', at);
                } else {
                    break;
                }
            }
            at = next;
        }
        if (Fit.matches(row.substring(end), "[ ,;:=()|.]*")) {
            end = row.length();
        }
    }

    /** Where the token ends that begins at {@code at}; {@code at} when none does. */
    private int token(String row, int at) {
        if (at > 0 && Character.isLetter(row.charAt(at)) && Character.isLetter(row.charAt(at - 1))) {
            return at;
        }
        var side = SIDE.matcher(row).region(at, row.length()).useTransparentBounds(true);
        if (side.lookingAt()) {
            var sides = side.group().startsWith("b") ? Side.both() : EnumSet.of(side(side.group()));
            tokens.add(new Token('S', at, side.end(), sides, List.of(), List.of()));
            return side.end();
        }
        var place = PLACE.matcher(row).region(at, row.length()).useTransparentBounds(true);
        if (place.lookingAt()) {
            var names = new ArrayList<List<String>>();
            for (var name : place.group().replaceAll(" ?pulses?", "").split(" ?(?:[/&,]|\\band\\b) ?", 0)) {
                letters |= name.length() == 1;
                names.add(places(name));
            }
            tokens.add(new Token('P', at, place.end(), Set.of(), names, List.of()));
            return place.end();
        }
        var grade = Fit.of(OF_FOUR).matcher(row).region(at, row.length()).useTransparentBounds(true);
        if (first.isEmpty() && grade.lookingAt()) {
            tokens.add(new Token('V', at, grade.end(), Set.of(), List.of(), List.of(value(row.substring(at, at + 1)))));
            return grade.end();
        }
        var value = VALUE.matcher(row).region(at, row.length()).useTransparentBounds(true);
        return value.lookingAt() && !isDash(row, at, value.end()) ? values(value.group(), at, value.end()) : at;
    }

    /** "Fem - 2+": the dash is no sign. */
    private static boolean isDash(String row, int at, int end) {
        return row.substring(at, end).equals("-") && Fit.matches(row.substring(end), "(?s) ?(?:\\d|[a-z]+ ?[,;]).*");
    }

    private int values(String text, int start, int valueEnd) {
        var doubtful = text.equals("+/-")
                && first.isEmpty()
                && !SURELY_PAIRS.matcher(plain).find();
        var values = doubtful
                ? List.of("weak")
                : List.of(text.split(" ?/ ?", 0)).stream().map(PulseGrid::value).toList();
        pairs |= values.size() > 1;
        bare += Fit.matches(text, "[0-4]") ? 1 : 0;
        tokens.add(new Token('V', start, valueEnd, Set.of(), List.of(), values));
        return valueEnd;
    }

    private static String value(String grade) {
        if (Fit.matches(grade, "0\\+*|-|no[nt]\\b.*|impalpable|absent|nil")) {
            return "absent";
        }
        return Fit.matches(grade, "1\\+*|weak|faint|diminished|reduced|trace") ? "weak" : "present";
    }

    private static List<String> places(String name) {
        return switch (name) {
            case "femoral", "fem", "f", "cfa" -> PulseWords.ALL.subList(0, 1);
            case "popliteal", "pop", "p" -> PulseWords.ALL.subList(1, 2);
            case "dp", "d" -> PulseWords.ALL.subList(2, 3);
            case "pedal" -> PulseWords.ALL.subList(2, 4);
            default -> PulseWords.ALL.subList(3, 4);
        };
    }

    private String kinds() {
        var kinds = new StringBuilder();
        tokens.forEach(token -> kinds.append(token.kind()));
        return kinds.toString();
    }

    private boolean namesSides() {
        return kinds().contains("S");
    }

    /** "Fem/pop/DP/PT: R 2+ 1+ 0 0", as many grades behind each side as places; or "fem 2+ R, 1+ L" throughout. */
    private boolean isHeader() {
        return Fit.matches(kinds(), "P(?:SVV+)+|(?:P(?:VS){2})+|(?:P(?:SV){2}){2,}");
    }

    /** Whether the whole row is written in one known way; then its cells are read. */
    private boolean fits() {
        var kinds = kinds();
        if (kinds.contains("VV")) {
            return isHeader() && header();
        }
        if (Fit.matches(kinds, "(?:SPV(?:SV)?)+|(?:S(?:PV)+)+|(?:PV)+|(?:S(?:VP)+)+|(?:VP)+|(?:P(?:SV){1,2})+")) {
            return sidesFirst();
        }
        if (Fit.matches(kinds, "(?:P(?:VS){1,2})+")) {
            return sidesLast(false);
        }
        return Fit.matches(kinds, "(?:(?:PV)+S){1,2}|(?:(?:VP)+S){1,2}") && evenRuns(kinds) && sidesLast(true);
    }

    private static boolean evenRuns(String kinds) {
        var runs = kinds.split("S", 0);
        return runs.length == 1 || runs[0].length() == runs[1].length();
    }

    private boolean header() {
        var names = tokens.getFirst();
        var count = names.places().size();
        for (var i = 1; i < tokens.size(); i += count + 1) {
            if (i + count >= tokens.size() || tokens.get(i).kind() != 'S') {
                return false;
            }
            for (var k = 0; k < count; k++) {
                var value = tokens.get(i + 1 + k);
                if (value.kind() != 'V' || value.values().size() != 1) {
                    return false;
                }
                cell(
                        names.places().get(k),
                        value.values().getFirst(),
                        Optional.of(tokens.get(i).sides()),
                        names,
                        value);
            }
        }
        return true;
    }

    private boolean sidesFirst() {
        var side = Optional.<Token>empty();
        var place = Optional.<Token>empty();
        var value = Optional.<Token>empty();
        var valueFirst = kinds().replace("S", "").startsWith("V");
        for (var token : tokens) {
            switch (token.kind()) {
                case 'S' -> side = Optional.of(token);
                case 'P' -> place = Optional.of(token);
                default -> value = Optional.of(token);
            }
            if (token.kind() == (valueFirst ? 'P' : 'V')
                    && !assign(place.orElseThrow(), value.orElseThrow(), side.map(Token::sides))) {
                return false;
            }
        }
        return true;
    }

    private boolean sidesLast(boolean runs) {
        var from = 0;
        var place = tokens.getFirst();
        for (var i = 0; i < tokens.size(); i++) {
            if (tokens.get(i).kind() != 'S') {
                continue;
            }
            var sides = Optional.of(tokens.get(i).sides());
            for (var k = from; k < i; k++) {
                place = tokens.get(k).kind() == 'P' ? tokens.get(k) : place;
                var other = tokens.get(k);
                if (runs && (k - from) % 2 == 1) {
                    var before = tokens.get(k - 1);
                    if (!assign(other.kind() == 'P' ? other : before, other.kind() == 'P' ? before : other, sides)) {
                        return false;
                    }
                } else if (!runs && other.kind() == 'V' && !assign(place, other, sides)) {
                    return false;
                }
            }
            from = i + 1;
        }
        return true;
    }

    private boolean assign(Token place, Token value, Optional<Set<Side>> sides) {
        var names = place.places();
        var values = value.values();
        if (values.size() == 1) {
            names.forEach(name -> cell(name, values.getFirst(), sides, place, value));
            return true;
        }
        var twoLegs = names.size() == 1 && values.size() == 2 && sides.isEmpty();
        if (twoLegs && first.isPresent()) {
            cell(names.getFirst(), values.get(0), Optional.of(EnumSet.of(first.get())), place, value);
            cell(
                    names.getFirst(),
                    values.get(1),
                    Optional.of(EnumSet.of(first.get().other())),
                    place,
                    value);
            return true;
        }
        if (twoLegs) {
            if (values.get(0).equals(values.get(1))) {
                cell(names.getFirst(), values.get(0), Optional.of(Side.both()), place, value);
            }
            return true;
        }
        if (names.size() != values.size() || names.size() == 2 && first.isPresent()) {
            return false;
        }
        for (var i = 0; i < names.size(); i++) {
            cell(names.get(i), values.get(i), sides, place, value);
        }
        return true;
    }

    private void cell(List<String> places, String value, Optional<Set<Side>> sides, Token one, Token two) {
        cells.add(new Cell(places, value, sides, Math.min(one.start(), two.start()), Math.max(one.end(), two.end())));
    }

    /** Only a ticked box says something, and only where one thing was felt for all of them or it is named by the box. */
    private static List<Cell> boxes(String plain) {
        var all = BOX.matcher(plain).results().toList();
        var felt = FELT.matcher(plain)
                .results()
                .map(match -> value(match.group()))
                .distinct()
                .toList();
        var lead = plain.substring(0, all.getFirst().start());
        var cells = new ArrayList<Cell>();
        if (felt.size() != 1 || Fit.matches(lead, "(?s).*\\b(?:femoral|popliteal|dp|postib|pedal)\\b.*")) {
            return cells;
        }
        for (var i = 0; i < all.size(); i++) {
            if (all.get(i).group(1) == null && all.get(i).group(2) == null) {
                continue;
            }
            var start = all.get(i).end();
            var stop = i + 1 < all.size() ? all.get(i + 1).start() : plain.length();
            var inBox = Fit.of(
                            "^ ?(?:(right|left|bilateral) )?(femoral|popliteal|dp|postib|pedal)(?: (right|left|bilateral))?\\b(?! (?:right|left))")
                    .matcher(plain.substring(start, stop));
            if (inBox.find() && (inBox.group(1) == null) != (inBox.group(3) == null)) {
                var side = inBox.group(1) == null ? inBox.group(3) : inBox.group(1);
                cells.add(new Cell(
                        places(inBox.group(2)),
                        felt.getFirst(),
                        Optional.of(side.startsWith("b") ? Side.both() : EnumSet.of(side(side))),
                        start,
                        start + inBox.end()));
            }
        }
        return cells;
    }
}
