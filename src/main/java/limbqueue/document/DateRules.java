package limbqueue.document;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import tools.jackson.databind.JsonNode;

/** What a JSON Schema cannot say of dates: that a thing past is not in the future, and that an end follows its beginning. */
final class DateRules {

    private final LocalDate today;
    private final Set<String> alreadyWrong;
    private final Map<String, String> problems;

    private DateRules(LocalDate today, Set<String> alreadyWrong, Map<String, String> problems) {
        this.today = today;
        this.alreadyWrong = alreadyWrong;
        this.problems = problems;
    }

    /**
     * Adds to {@code problems} what is wrong with the dates of {@code document}, by path. A value that already has a
     * problem is passed over.
     */
    static void check(JsonNode document, LocalDate today, Map<String, String> problems) {
        var rules = new DateRules(today, Set.copyOf(problems.keySet()), problems);
        rules.walk(
                document,
                Referral.DATED,
                "",
                rules.date(document.path("patient").path("born"), "patient.born"));
    }

    private Optional<LocalDate> date(JsonNode node, String path) {
        if (!node.isString() || alreadyWrong.contains(path)) {
            return Optional.empty();
        }
        return day(node.stringValue()).filter(date -> !date.isAfter(today));
    }

    /** @param ahead how many days after today a date may lie at most */
    private record Range(LocalDate earliest, int ahead) {

        static Optional<Range> of(JsonNode part) {
            return part.has("x-latestDaysFromToday")
                    ? Optional.of(new Range(
                            LocalDate.parse(part.get("x-earliest").stringValue()),
                            part.get("x-latestDaysFromToday").intValue()))
                    : Optional.empty();
        }
    }

    /**
     * A part of the schema with dates in it; everything else is passed over.
     *
     * @param range where a date may lie; empty for a group or a list
     * @param fields the fields of a group that have dates in them
     * @param entry what the entries of a list are
     */
    private record Dated(JsonNode part, Optional<Range> range, Map<String, Dated> fields, Optional<Dated> entry) {

        static Optional<Dated> of(PublishedSchema schema, JsonNode part) {
            var fields = new LinkedHashMap<String, Dated>();
            if (part.has("properties")) {
                for (var name : part.get("properties").propertyNames()) {
                    schema.field(part, name)
                            .flatMap(field -> of(schema, field))
                            .ifPresent(dated -> fields.put(name, dated));
                }
            }
            var entry = schema.entry(part).flatMap(list -> of(schema, list));
            var range = Range.of(part);
            return range.isPresent() || !fields.isEmpty() || entry.isPresent()
                    ? Optional.of(new Dated(part, range, fields, entry))
                    : Optional.empty();
        }
    }

    private static final class Referral {
        static final Dated DATED = Dated.of(
                        PublishedSchema.referral(), PublishedSchema.referral().root())
                .orElseThrow();
    }

    private void walk(JsonNode node, Dated dated, String path, Optional<LocalDate> born) {
        if (alreadyWrong.contains(path)) {
            return;
        }
        if (node.isObject()) {
            dated.fields().forEach((name, field) -> {
                var value = node.get(name);
                if (value != null) {
                    walk(value, field, FieldPath.field(path, name), born);
                }
            });
            inOrder(node, path, "from", "to", "The absence ends before it begins (%s). Check both days.");
            inOrder(
                    node,
                    path,
                    "leavesArea",
                    "returnsToArea",
                    "The patient returns before leaving (%s). Check both days.");
        } else if (node.isArray() && dated.entry().isPresent()) {
            for (var i = 0; i < node.size(); i++) {
                walk(node.get(i), dated.entry().get(), FieldPath.entry(path, i), born);
            }
        } else if (node.isString() && dated.range().isPresent()) {
            problem(node, dated.part(), dated.range().get(), born).ifPresent(text -> problems.put(path, text));
        }
    }

    private Optional<String> problem(JsonNode node, JsonNode part, Range range, Optional<LocalDate> born) {
        var read = day(node.stringValue());
        if (read.isEmpty()) {
            return Optional.of(ProblemWords.notADate(part, node));
        }
        var date = read.get();
        var title = ProblemWords.title(part);
        if (date.isBefore(range.earliest())) {
            return Optional.of("%s %s lies before %s. Check the year.".formatted(title, date, range.earliest()));
        }
        var ahead = range.ahead();
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
        if (from == null || to == null || !from.isString() || !to.isString()) {
            return;
        }
        var toPath = FieldPath.field(path, second);
        if (problems.containsKey(FieldPath.field(path, first)) || problems.containsKey(toPath)) {
            return;
        }
        var begin = day(from.stringValue());
        var end = day(to.stringValue());
        if (begin.isPresent() && end.isPresent() && end.get().isBefore(begin.get())) {
            problems.put(toPath, words.formatted(begin.get() + " to " + end.get()));
        }
    }

    /** The day of a date of ten characters, which a parser for every kind of date takes long to read. */
    private static Optional<LocalDate> plainDay(String text) {
        for (var i = 0; i < text.length(); i++) {
            var c = text.charAt(i);
            if (i == 4 || i == 7 ? c != '-' : c < '0' || c > '9') {
                return Optional.empty();
            }
        }
        return Optional.of(LocalDate.of(
                Integer.parseInt(text, 0, 4, 10), Integer.parseInt(text, 5, 7, 10), Integer.parseInt(text, 8, 10, 10)));
    }

    /** The day of a date or a date-time. */
    static Optional<LocalDate> day(String text) {
        try {
            if (text.length() == 10) {
                return plainDay(text);
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
