package limbqueue.reading;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Tables of measurements: a line that names both sides, and lines below it with one value for each; or turned round. */
final class TableRule implements Rule {

    private record Column(String field, boolean pulse) {}

    private static final Pattern SIDES = Pattern.compile("\\b(left|right)\\b");
    private static final Pattern CELL = Pattern.compile(
            "(?<![\\d./])\\d{1,3}(?:\\.\\d{1,2})?\\+?(?![\\d/])|\\+{1,3}(?:/-)?|\\b(?:triphasic|biphasic|monophasic|flat|absent|present|palpable|weak|diminished|faint|reduced|normal|good|not (?:done|palpable|recordable|measured|tested|obtained|felt|available)|non compressible|nc|nr|n/a|n/d|nil|none|impalpable|nd|yes|no)\\b|(?<= )--?(?= |$)");

    /** "P = palpable, W = weak, A = absent": the signs of one table and what they stand for. */
    private static final Pattern LEGEND = Pattern.compile("(?<![a-z\\d])([a-z]{1,2}|\\+{1,3}|[0-4]) ?[=:] ?"
            + "(palpable|present|normal|weak|reduced|diminished|faint|absent|not palpable|impalpable)\\b");

    /** Boxes that are to be ticked where a pulse is felt; an empty one says nothing. */
    private static final Pattern TICK_IF_FELT =
            Pattern.compile("\\b(?:tick|mark|check|x)\\b[^.]{0,20}\\b(?:if|when|where) (?:palpable|present|felt)\\b"
                    + "|\\bpulses? (?:palpable|present|felt) ?(?:\\(tick\\)|\\(please tick\\))");

    private static final Pattern BOX =
            Pattern.compile("[\\[(] ?([xy\u2713\u2714])? ?[\\])]|([\u2611\u2612\u2714])|\u2610");

    @Override
    public void read(Page page, Findings findings) {
        var legend = new HashMap<String, String>();
        var tick = -9;
        var head = Optional.<List<Side>>empty();
        var columns = List.<Column>of();
        var since = 0;
        for (var sentence : page.sentences) {
            var plain = sentence.plain;
            var sides = sides(plain);
            legend(plain, legend);
            if (TICK_IF_FELT.matcher(plain).find()) {
                tick = sentence.number;
            }
            if (sides.size() == 2 && isHead(plain)) {
                head = Optional.of(sides);
                columns = List.of();
                since = sentence.number;
                continue;
            }
            var named = columns(plain);
            if (named.size() >= 2
                    && !Fit.matches(plain, "(?s).*\\d.*")
                    && sides.isEmpty()
                    && !Fit.matches(plain, "(?s).*\\b(?:is|was|are|absent|palpable|present|weak|no)\\b.*")) {
                columns = named;
                head = Optional.empty();
                since = sentence.number;
                continue;
            }
            if (sentence.number - since > 12) {
                head = Optional.empty();
                columns = List.of();
            }
            if (head.isPresent()) {
                if (sentence.number - tick <= 8) {
                    boxes(sentence, head.get(), findings);
                }
                row(sentence, head.get(), legend, findings);
            } else if (!columns.isEmpty()) {
                turned(sentence, columns, legend, findings);
            }
        }
    }

    /** The sides that the head of a table names, in their order. */
    static Optional<List<Side>> head(String plain) {
        if (!plain.contains("left") || !plain.contains("right")) {
            return Optional.empty();
        }
        var sides = sides(plain);
        return sides.size() == 2 && isHead(plain) ? Optional.of(sides) : Optional.empty();
    }

    private static List<Side> sides(String plain) {
        var sides = new ArrayList<Side>();
        var match = SIDES.matcher(plain);
        while (match.find()) {
            sides.add(match.group().equals("left") ? Side.LEFT : Side.RIGHT);
        }
        return sides.size() == 2 && sides.get(0) == sides.get(1) ? List.of() : sides;
    }

    private static boolean isHead(String plain) {
        var rest = SIDES.matcher(plain)
                .replaceAll(" ")
                .replaceAll("[^a-z0-9]+", " ")
                .strip();
        return !Fit.matches(rest, ".*\\d.*")
                && (rest.isEmpty() || rest.split(" ").length <= 6)
                && !Fit.matches(rest, ".*\\b(?:is|was|has|and|pain|ulcer|absent|palpable|present|no)\\b.*");
    }

    private static Optional<Column> column(String label) {
        var words = label.strip();
        if (Fit.matches(words, "(?s).*\\b(?:carotid|radial|velocity|psv|vein|diameter)\\b.*")) {
            return Optional.empty();
        }
        var exercise = Fit.matches(words, "(?s).*\\b(?:exercise|treadmill|walking|post[ -]?ex)\\b.*");
        if (Fit.matches(words, "(?s).*\\babi\\b.*")) {
            return Optional.of(new Column(exercise ? "abiAfterExercise" : "abi", false));
        }
        if (Fit.matches(words, "(?s).*\\btbi\\b.*")) {
            return Optional.of(new Column("tbi", false));
        }
        if (Fit.matches(words, "(?s).*\\b(?:brachial|arm)s?\\b.*")) {
            return Optional.of(new Column("arm", false));
        }
        if (exercise && Fit.matches(words, "(?s).*\\bankle\\b.*")) {
            return Optional.of(new Column("pressures.ankleAfterExercise", false));
        }
        if (Fit.matches(words, "(?s).*\\bwaveform\\b.*")) {
            return Optional.of(new Column("pressures.waveform", false));
        }
        if (Fit.matches(words, "(?s).*\\btcpo2\\b.*")) {
            return Optional.of(new Column("pressures.tcpo2", false));
        }
        if (Fit.matches(words, "(?s).*\\btoe\\b.*")
                && !Fit.matches(words, "(?s).*\\b(?:ulcer|gangrene|amputation|wound)\\b.*")) {
            return Optional.of(new Column("pressures.toe", false));
        }
        if (Fit.matches(words, "(?s).*\\bdp\\b.*")) {
            return Optional.of(new Column("dorsalisPedis", true));
        }
        if (Fit.matches(words, "(?s).*\\bpostib\\b.*")) {
            return Optional.of(new Column("posteriorTibial", true));
        }
        if (Fit.matches(words, "(?s).*\\bpopliteal\\b.*")) {
            return Optional.of(new Column("popliteal", true));
        }
        return Fit.matches(words, "(?s).*\\b(?:femoral|cfa)\\b.*")
                ? Optional.of(new Column("femoral", true))
                : Optional.empty();
    }

    private static void legend(String plain, Map<String, String> legend) {
        var entries = LEGEND.matcher(plain).results().toList();
        if (entries.size() >= 2) {
            entries.forEach(entry -> legend.put(entry.group(1), entry.group(2)));
        }
    }

    private static List<int[]> cells(String plain, int from, Map<String, String> legend) {
        var found = new ArrayList<int[]>();
        if (!legend.isEmpty()) {
            var signs = Pattern.compile("(?<![a-z\\d+])(?:"
                            + legend.keySet().stream().map(Pattern::quote).collect(Collectors.joining("|"))
                            + ")(?![a-z\\d+])")
                    .matcher(plain)
                    .region(from, plain.length())
                    .useTransparentBounds(true);
            signs.results().forEach(sign -> found.add(new int[] {sign.start(), sign.end()}));
            if (!found.isEmpty()) {
                return found;
            }
        }
        var cells = CELL.matcher(plain).region(from, plain.length()).useTransparentBounds(true);
        cells.results().forEach(cell -> found.add(new int[] {cell.start(), cell.end()}));
        return found;
    }

    private static void boxes(Sentence sentence, List<Side> head, Findings findings) {
        var boxes = BOX.matcher(sentence.plain).results().toList();
        if (boxes.size() != 2) {
            return;
        }
        var column =
                column(sentence.plain.substring(0, boxes.getFirst().start())).filter(Column::pulse);
        for (var i = 0; column.isPresent() && i < 2; i++) {
            var box = boxes.get(i);
            if (box.group(1) != null || box.group(2) != null) {
                findings.put(
                        head.get(i).leg("pulses." + column.get().field()),
                        "present",
                        sentence.span(box.start(), box.end()));
            }
        }
    }

    private static void row(Sentence sentence, List<Side> head, Map<String, String> legend, Findings findings) {
        var plain = sentence.plain;
        var found = cells(plain, 0, legend);
        if (found.size() != 2 || SIDES.matcher(plain).find()) {
            return;
        }
        var label = plain.substring(0, found.getFirst()[0]);
        if (label.length() > 45) {
            return;
        }
        if (DISTANCE.matcher(label).find()) {
            distances(sentence, head, found, findings);
        }
        column(label).ifPresent(column -> {
            for (var i = 0; i < 2; i++) {
                put(sentence, column, head.get(i), found.get(i), legend, findings);
            }
        });
    }

    private static final Pattern DISTANCE = Pattern.compile("\\bdistance\\b");

    /** "Distance (m)   80   -": the unit stands with the label or with the number. */
    private static void distances(Sentence sentence, List<Side> head, List<int[]> cells, Findings findings) {
        var unit = Fit.of("\\b(m|metre|yard|feet_unit|feet|block)s?\\b").matcher(sentence.plain);
        if (!unit.find()) {
            return;
        }
        for (var i = 0; i < 2; i++) {
            var number = sentence.plain.substring(cells.get(i)[0], cells.get(i)[1]);
            for (var distance : Distances.in(
                    number + " " + unit.group(1),
                    0,
                    number.length() + unit.group(1).length() + 1)) {
                findings.put(
                        head.get(i).leg("claudication.distanceMetres"),
                        distance.metres(),
                        sentence.span(cells.get(i)[0], cells.get(i)[1]));
            }
        }
    }

    private static List<Column> columns(String plain) {
        var columns = new ArrayList<Column>();
        for (var word : plain.split("[ ,|/:]+", 0)) {
            column(word.equals("toe") ? "toe" : word).ifPresent(columns::add);
        }
        return columns;
    }

    private static void turned(Sentence sentence, List<Column> columns, Map<String, String> legend, Findings findings) {
        var plain = sentence.plain;
        var side = Fit.of("^[^a-z]*(left|right)\\b(?: leg| foot)?").matcher(plain);
        if (!side.find()) {
            return;
        }
        var which = side.group(1).equals("left") ? Side.LEFT : Side.RIGHT;
        var found = cells(plain, side.end(), legend);
        if (found.size() != columns.size()) {
            return;
        }
        for (var i = 0; i < found.size(); i++) {
            put(sentence, columns.get(i), which, found.get(i), legend, findings);
        }
    }

    private static void put(
            Sentence sentence, Column column, Side side, int[] cell, Map<String, String> legend, Findings findings) {
        var sign = sentence.plain.substring(cell[0], cell[1]);
        var text = legend.getOrDefault(sign, sign);
        var words = sentence.span(cell[0], cell[1]);
        if (column.pulse()) {
            var number = Fit.matches(text, "\\d{2,3}");
            if (number) {
                if (Fit.matches(column.field(), "dorsalisPedis|posteriorTibial")) {
                    findings.put(side.leg("pressures." + column.field()), new BigDecimal(text), words);
                }
            } else {
                pulse(text).ifPresent(value -> findings.put(side.leg("pulses." + column.field()), value, words));
            }
            return;
        }
        if (column.field().equals("pressures.waveform")) {
            if (Fit.matches(text, "triphasic|biphasic|monophasic|flat")) {
                findings.put(side.leg(column.field()), text, words);
            }
            return;
        }
        if (!Fit.matches(text, "\\d{1,3}(?:\\.\\d{1,2})?")) {
            return;
        }
        var value = new BigDecimal(text);
        var index = column.field().startsWith("abi") || column.field().equals("tbi");
        if (index && (value.doubleValue() > 2.5 || !text.contains(".") && value.doubleValue() != 1)
                || !index && (value.doubleValue() < 6 || value.doubleValue() > 300)) {
            return;
        }
        findings.put(
                column.field().equals("arm") ? "armPressures." + side.word : side.leg(column.field()), value, words);
    }

    private static Optional<String> pulse(String text) {
        if (Fit.matches(text, "[234]\\+?|\\+{2,3}|\\+|present|palpable|good|normal|yes")) {
            return Optional.of("present");
        }
        if (Fit.matches(text, "1\\+?|\\+/-|weak|diminished|faint|reduced")) {
            return Optional.of("weak");
        }
        return Fit.matches(text, "0|-|absent|not palpable|not felt|impalpable|nil|none|no")
                ? Optional.of("absent")
                : Optional.empty();
    }
}
