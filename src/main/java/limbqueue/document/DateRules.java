package limbqueue.document;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** What a JSON Schema cannot say of dates: that a thing past is not in the future, and that an end follows its beginning. */
final class DateRules {

    private final PublishedSchema schema;
    private final LocalDate today;
    private final Set<String> alreadyWrong;
    private final Map<String, String> problems;

    private DateRules(PublishedSchema schema, LocalDate today, Set<String> alreadyWrong, Map<String, String> problems) {
        this.schema = schema;
        this.today = today;
        this.alreadyWrong = alreadyWrong;
        this.problems = problems;
    }

    /**
     * Adds to {@code problems} what is wrong with the dates of {@code document}, by path. A value that already has a
     * problem is passed over.
     */
    static void check(JsonNode document, PublishedSchema schema, LocalDate today, Map<String, String> problems) {
        var rules = new DateRules(schema, today, Set.copyOf(problems.keySet()), problems);
        rules.walk(document, schema.root(), "", rules.date(document.at("/patient/born"), "patient.born"));
    }

    private Optional<LocalDate> date(JsonNode node, String path) {
        if (!node.isString() || alreadyWrong.contains(path)) {
            return Optional.empty();
        }
        return day(node.stringValue()).filter(date -> !date.isAfter(today));
    }

    private void walk(JsonNode node, JsonNode part, String path, Optional<LocalDate> born) {
        if (alreadyWrong.contains(path)) {
            return;
        }
        if (node.isObject()) {
            for (var field : node.properties()) {
                schema.field(part, field.getKey())
                        .ifPresent(fieldPart ->
                                walk(field.getValue(), fieldPart, FieldPath.field(path, field.getKey()), born));
            }
            inOrder(node, path, "from", "to", "The absence ends before it begins (%s). Check both days.");
            inOrder(
                    node,
                    path,
                    "leavesArea",
                    "returnsToArea",
                    "The patient returns before leaving (%s). Check both days.");
        } else if (node.isArray()) {
            for (var i = 0; i < node.size(); i++) {
                var entry = node.get(i);
                var entryPath = FieldPath.entry(path, i);
                schema.entry(part).ifPresent(entryPart -> walk(entry, entryPart, entryPath, born));
            }
        } else if (node.isString() && part.has("x-latestDaysFromToday")) {
            problem(node, part, born).ifPresent(text -> problems.put(path, text));
        }
    }

    private Optional<String> problem(JsonNode node, JsonNode part, Optional<LocalDate> born) {
        var read = day(node.stringValue());
        if (read.isEmpty()) {
            return Optional.of(ProblemWords.notADate(part, node));
        }
        var date = read.get();
        var title = ProblemWords.title(part);
        var earliest = LocalDate.parse(part.get("x-earliest").stringValue());
        if (date.isBefore(earliest)) {
            return Optional.of("%s %s lies before %s. Check the year.".formatted(title, date, earliest));
        }
        var ahead = part.get("x-latestDaysFromToday").intValue();
        if (date.isAfter(today.plusDays(ahead))) {
            return Optional.of(
                    ahead == 0
                            ? "%s %s lies in the future: today is %s. Check the date.".formatted(title, date, today)
                            : "%s %s lies more than %d years ahead. Check the year."
                                    .formatted(title, date, ahead / 365));
        }
        return born.filter(birth -> date.isBefore(birth))
                .map(birth ->
                        "%s %s lies before the date of birth, %s. Check both dates.".formatted(title, date, birth));
    }

    private void inOrder(JsonNode node, String path, String first, String second, String words) {
        var from = node.get(first);
        var to = node.get(second);
        var toPath = FieldPath.field(path, second);
        if (from == null
                || to == null
                || !from.isString()
                || !to.isString()
                || problems.containsKey(FieldPath.field(path, first))
                || problems.containsKey(toPath)) {
            return;
        }
        var begin = day(from.stringValue());
        var end = day(to.stringValue());
        if (begin.isPresent() && end.isPresent() && end.get().isBefore(begin.get())) {
            problems.put(toPath, words.formatted(begin.get() + " to " + end.get()));
        }
    }

    /** The day of a date or a date-time. */
    static Optional<LocalDate> day(String text) {
        try {
            if (text.length() == 10) {
                return Optional.of(LocalDate.parse(text));
            }
            var time = text.substring(Math.min(text.length(), 11));
            return Optional.of(
                    time.endsWith("Z") || time.contains("+") || time.contains("-")
                            ? OffsetDateTime.parse(text).toLocalDate()
                            : LocalDateTime.parse(text).toLocalDate());
        } catch (DateTimeException _) {
            return Optional.empty();
        }
    }
}
