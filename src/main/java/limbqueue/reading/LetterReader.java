package limbqueue.reading;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import limbqueue.document.DocumentFormat;
import limbqueue.document.Problem;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Reads one letter at a time; thread-safe, and the same text always gives the same result. */
public final class LetterReader {

    /** About 16 printed pages, more than any letter has; what follows is not read. */
    private static final int LONGEST = 40_000;

    /** A day after all others, for letters that do not say when they were written. */
    private static final LocalDate UNKNOWN_DAY = LocalDate.of(2900, 1, 1);

    private static final List<Rule> RULES = List.of(
            new PatientRule(),
            new ReferrerRule(),
            new TelephoneRule(),
            new FormRule(),
            new TableRule(),
            new PerfusionRule(),
            new PulseRule(),
            new ClaudicationRule(),
            new RestPainRule(),
            new WoundRule(),
            new InfectionRule(),
            new WoundFormRule(),
            new AcuteRule(),
            new LesionRule(),
            new ImagingRule(),
            new ProcedureRule(),
            new DeferralRule(),
            new HistoryRule(),
            new SmokingRule(),
            new MedicineRule(),
            new AllergyRule(),
            new LabRule(),
            new BodyRule(),
            new AskedRule());

    private LetterReader() {}

    /**
     * What {@code text} states; never fails, whatever the text. Of a text longer than 40,000 {@code char}s, about 16
     * printed pages, the rest is not read.
     */
    public static ReadLetter read(String text) {
        var page = new Page(text.length() > LONGEST ? text.substring(0, LONGEST) : text);
        var findings = new Findings();
        for (var rule : RULES) {
            rule.read(page, findings);
        }
        var found = findings.inOrder();
        var today = today(page, findings);
        var permitted = permitted(found, today);
        return new ReadLetter(document(permitted), permitted, findings.unclear());
    }

    /** The day of the letter, or of its arrival, whichever is later. */
    private static LocalDate today(Page page, Findings findings) {
        var written = page.written.orElse(UNKNOWN_DAY);
        return findings.get("received")
                .map(day -> LocalDate.parse(day.asString()))
                .filter(written::isBefore)
                .orElse(written);
    }

    /** Leaves out what the format does not permit, such as a temperature of 12 degrees that the scan has made. */
    private static List<FoundField> permitted(List<FoundField> found, LocalDate today) {
        Set<String> wrong = new HashSet<>();
        var left = found;
        for (var attempt = 0; attempt < 3; attempt++) {
            var problems = DocumentFormat.read(document(left), today).problems();
            if (problems.isEmpty()) {
                return numbered(left);
            }
            problems.stream().map(Problem::path).forEach(wrong::add);
            left = left.stream().filter(field -> !wrong.contains(field.field())).toList();
        }
        return List.of();
    }

    /** List entries numbered anew, in case one has lost all its fields. */
    private static List<FoundField> numbered(List<FoundField> found) {
        var numbers = new java.util.LinkedHashMap<String, Integer>();
        var counts = new java.util.HashMap<String, Integer>();
        found.stream()
                .filter(field -> field.field().contains("["))
                .map(field -> field.field().substring(0, field.field().indexOf(']') + 1))
                .distinct()
                .sorted(java.util.Comparator.comparing((String entry) -> entry.substring(0, entry.indexOf('[')))
                        .thenComparingInt(
                                entry -> Integer.parseInt(entry.substring(entry.indexOf('[') + 1, entry.length() - 1))))
                .forEach(entry ->
                        numbers.put(entry, counts.merge(entry.substring(0, entry.indexOf('[')), 1, Integer::sum) - 1));
        var renumbered = new ArrayList<FoundField>();
        for (var field : found) {
            var path = field.field();
            var bracket = path.indexOf('[');
            if (bracket >= 0) {
                var entry = path.substring(0, path.indexOf(']') + 1);
                path = path.substring(0, bracket) + "[" + numbers.get(entry) + "]" + path.substring(entry.length());
            }
            renumbered.add(new FoundField(path, field.value(), field.start(), field.end()));
        }
        return List.copyOf(renumbered);
    }

    private static ObjectNode document(List<FoundField> found) {
        var root = JsonNodeFactory.instance.objectNode();
        for (var field : found) {
            put(root, field.field(), field.value());
        }
        return root;
    }

    private static void put(ObjectNode root, String path, JsonNode value) {
        ObjectNode node = root;
        var steps = path.split("\\.", 0);
        for (var i = 0; i + 1 < steps.length; i++) {
            var bracket = steps[i].indexOf('[');
            if (bracket < 0) {
                node = node.has(steps[i]) ? (ObjectNode) node.get(steps[i]) : node.putObject(steps[i]);
            } else {
                var name = steps[i].substring(0, bracket);
                var list = node.has(name) ? (ArrayNode) node.get(name) : node.putArray(name);
                var index = Integer.parseInt(steps[i].substring(bracket + 1, steps[i].length() - 1));
                while (list.size() <= index) {
                    list.addObject();
                }
                node = (ObjectNode) list.get(index);
            }
        }
        node.set(steps[steps.length - 1], value);
    }
}
