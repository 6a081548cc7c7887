package limbqueue.triage.rule;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import limbqueue.triage.rule.Rule.Citation;
import limbqueue.triage.rule.Rule.Group;
import limbqueue.triage.threshold.Limit;
import limbqueue.triage.threshold.ThresholdFile;
import limbqueue.triage.threshold.ThresholdFile.Seen;

/**
 * Reads the file of rules, strictly: entries parted by blank lines, each with the lines {@code rule}, {@code group},
 * {@code says}, one or more {@code printed} and, where it compares with numbers, {@code compares}, in this order.
 */
final class RuleFile {

    private static final Pattern ID = Pattern.compile("[a-z0-9]+(-[a-z0-9]+)*");
    private static final String COMMON_PRACTICE = "common-practice";

    private record Line(String place, String word, String text) {}

    private final Set<String> sources;
    private final Map<String, Rule> rules = new LinkedHashMap<>();

    private RuleFile(Set<String> sources) {
        this.sources = sources;
    }

    /**
     * The rules by id, in the order of the file.
     *
     * @throws IllegalArgumentException naming file, line and remedy
     */
    static Map<String, Rule> read(String name, List<String> lines, Set<String> sources) {
        var file = new RuleFile(sources);
        var entry = new ArrayList<Line>();
        for (var number = 1; number <= lines.size(); number++) {
            var line = lines.get(number - 1).strip();
            if (line.isEmpty()) {
                file.close(entry);
            } else if (!line.startsWith("#")) {
                entry.add(line(name + ", line " + number, line));
            }
        }
        file.close(entry);
        return file.rules;
    }

    private static Line line(String place, String line) {
        var cut = line.indexOf(' ');
        var word = cut < 0 ? line : line.substring(0, cut);
        var text = cut < 0 ? "" : line.substring(cut).strip();
        if (!Set.of("rule", "group", "says", "printed", "compares").contains(word)) {
            throw wrong(place, "a stray line: " + line, "begin it with rule, group, says, printed or compares");
        }
        if (text.isEmpty()) {
            throw wrong(place, "nothing stands after " + word, "write it or remove the line");
        }
        return new Line(place, word, text);
    }

    private void close(List<Line> entry) {
        if (entry.isEmpty()) {
            return;
        }
        var lines = new ArrayList<>(entry);
        entry.clear();
        var place = lines.getFirst().place();
        var rule = next(lines, "rule", place);
        if (!ID.matcher(rule.text()).matches()) {
            throw wrong(rule.place(), "not an id: " + rule.text(), "use small letters, digits and hyphens");
        }
        if (rules.containsKey(rule.text())) {
            throw wrong(rule.place(), "the rule " + rule.text() + " stands twice", "remove one");
        }
        var group = group(next(lines, "group", place));
        var says = says(next(lines, "says", place));
        var citations = new ArrayList<Citation>();
        citations.add(citation(next(lines, "printed", place)));
        while (!lines.isEmpty() && lines.getFirst().word().equals("printed")) {
            citations.add(citation(lines.removeFirst()));
        }
        var limits = lines.isEmpty() ? List.<Limit>of() : limits(next(lines, "compares", place));
        if (!lines.isEmpty()) {
            throw wrong(
                    lines.getFirst().place(),
                    "a line too many in the rule " + rule.text(),
                    "give each rule one rule, group, says, one or more printed, and at most one compares, in this order");
        }
        rules.put(rule.text(), new Rule(rule.text(), group, says, citations, limits));
    }

    private static Line next(List<Line> lines, String word, String entry) {
        if (lines.isEmpty()) {
            throw wrong(entry, "the rule has no line " + word, "add it");
        }
        if (!lines.getFirst().word().equals(word)) {
            throw wrong(
                    lines.getFirst().place(),
                    word + " is missing before " + lines.getFirst().word(),
                    "add it");
        }
        return lines.removeFirst();
    }

    private static Group group(Line line) {
        return Arrays.stream(Group.values())
                .filter(group -> group.id().equals(line.text()))
                .findFirst()
                .orElseThrow(() -> wrong(
                        line.place(),
                        "unknown group " + line.text(),
                        "use one of "
                                + Arrays.stream(Group.values()).map(Group::id).collect(Collectors.joining(", "))));
    }

    private static String says(Line line) {
        if (!line.text().endsWith(".")) {
            throw wrong(line.place(), "not a sentence: " + line.text(), "end it with a full stop");
        }
        return line.text();
    }

    private Citation citation(Line line) {
        var cells =
                Arrays.stream(line.text().split("\\|", -1)).map(String::strip).toList();
        if (cells.size() != 3 || cells.stream().anyMatch(String::isEmpty)) {
            throw wrong(
                    line.place(),
                    "not a citation: " + line.text(),
                    "give it source | locator | seen, none of them empty");
        }
        if (!sources.contains(cells.get(0))) {
            throw wrong(line.place(), "unknown source " + cells.get(0), "add it to the list of sources");
        }
        var seen = ThresholdFile.seen(line.place(), cells.get(2));
        if (cells.get(0).equals(COMMON_PRACTICE) != (seen == Seen.COMMON_PRACTICE)) {
            throw wrong(
                    line.place(),
                    "the source " + cells.get(0) + " is marked " + seen.word(),
                    "mark common practice, and nothing else, as common practice");
        }
        return new Citation(cells.get(0), cells.get(1), seen);
    }

    private static List<Limit> limits(Line line) {
        var limits = new LinkedHashSet<Limit>();
        for (var id : line.text().split(",", -1)) {
            var limit = limit(id.strip())
                    .orElseThrow(() -> wrong(
                            line.place(),
                            "unknown threshold " + id.strip(),
                            "write its id as the file of thresholds has it, ids parted by commas"));
            if (!limits.add(limit)) {
                throw wrong(line.place(), "the threshold " + limit.id() + " stands twice", "remove one");
            }
        }
        return List.copyOf(limits);
    }

    private static Optional<Limit> limit(String id) {
        return Arrays.stream(Limit.values())
                .filter(limit -> limit.id().equals(id))
                .findFirst();
    }

    /** @throws IllegalArgumentException naming a limit that no rule compares with */
    static void checkThatEveryLimitIsNamed(String name, Map<String, Rule> rules) {
        for (var limit : Limit.values()) {
            if (rules.values().stream().noneMatch(rule -> rule.limits().contains(limit))) {
                throw wrong(name, "no rule compares with the threshold " + limit.id(), "name it in the rule that does");
            }
        }
    }

    private static IllegalArgumentException wrong(String place, String what, String remedy) {
        return new IllegalArgumentException(String.format(Locale.ROOT, "%s: %s; %s", place, what, remedy));
    }
}
