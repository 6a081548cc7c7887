package limbqueue.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import limbqueue.triage.ReferralDocument;
import tools.jackson.databind.JsonNode;

/**
 * A field of the public format, as the published schema describes it.
 *
 * @param path where it lies, as {@code legs.left.abi}; of an entry of a list, of its first
 * @param title its name in words, as {@code Left leg: ABI as reported}
 * @param answers the values it may have, if it has a fixed list of them; of a yes-no question none
 * @param unit the unit in which a number is given, as the schema has it
 */
public record FormatField(String path, String title, Kind kind, List<String> answers, Optional<String> unit) {

    private static final Pattern ENTRY = Pattern.compile("\\[\\d+]");

    public enum Kind {
        TEXT,
        NUMBER,
        WHOLE_NUMBER,
        YES_NO,
        DATE,
        CHOICE
    }

    private static final class Every {
        static final List<FormatField> FIELDS = collect();
    }

    public FormatField {
        answers = List.copyOf(answers);
    }

    /** Every field that holds a single value, in the order of the format; lists with the fields of their first entry. */
    public static List<FormatField> all() {
        return Every.FIELDS;
    }

    /** The field at {@code path}, whichever entry of a list it belongs to. */
    public static Optional<FormatField> at(String path) {
        var first = ENTRY.matcher(path).replaceAll("[0]");
        return all().stream().filter(field -> field.path().equals(first)).findFirst();
    }

    /** The title of the list that lies at {@code path}, or of the part of the document. */
    public static Optional<String> titleOf(String path) {
        var schema = PublishedSchema.referral();
        Optional<JsonNode> part = Optional.of(schema.root());
        for (var step : FieldPath.steps(path)) {
            part = part.flatMap(here -> step instanceof String name ? schema.field(here, name) : schema.entry(here));
        }
        return part.map(ProblemWords::title);
    }

    private static List<FormatField> collect() {
        var fields = new ArrayList<FormatField>();
        collect(PublishedSchema.referral().root(), "", "", RecordForm.of(ReferralDocument.class), fields);
        return List.copyOf(fields);
    }

    private static void collect(JsonNode part, String path, String before, RecordForm form, List<FormatField> fields) {
        var schema = PublishedSchema.referral();
        for (var field : form.fields()) {
            var inner = schema.field(part, field.name()).orElseThrow();
            var at = FieldPath.field(path, field.name());
            var title = before + ProblemWords.title(inner);
            switch (field.content()) {
                case RecordForm.Group(var group) ->
                    collect(inner, at, path.equals("legs") ? side(field.name()) : before, group, fields);
                case RecordForm.Entries(var entry) -> {
                    var one = schema.entry(inner).orElseThrow();
                    var place = FieldPath.entry(at, 0);
                    collect(one, place, before + ProblemWords.title(one) + " 1: ", entry, fields);
                }
                case RecordForm.Single _ -> fields.add(single(inner, at, title));
            }
        }
    }

    private static String side(String name) {
        return name.equals("left") ? "Left leg: " : "Right leg: ";
    }

    private static FormatField single(JsonNode part, String path, String title) {
        var answers = new ArrayList<String>();
        var choices = part.get("enum");
        if (choices != null) {
            choices.values().stream()
                    .filter(JsonNode::isString)
                    .map(JsonNode::stringValue)
                    .forEach(answers::add);
        }
        var unit = Optional.ofNullable(part.get("x-unit")).map(JsonNode::stringValue);
        return new FormatField(path, title, kind(part), answers, unit);
    }

    private static Kind kind(JsonNode part) {
        if (part.has("enum")) {
            return Kind.CHOICE;
        }
        if (part.has("format") && part.get("format").stringValue().equals("date")) {
            return Kind.DATE;
        }
        var type = part.get("type").toString();
        return type.contains("\"boolean\"")
                ? Kind.YES_NO
                : type.contains("\"integer\"")
                        ? Kind.WHOLE_NUMBER
                        : type.contains("\"number\"") ? Kind.NUMBER : Kind.TEXT;
    }
}
