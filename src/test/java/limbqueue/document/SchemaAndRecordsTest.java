package limbqueue.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import limbqueue.document.RecordForm.Entries;
import limbqueue.document.RecordForm.Group;
import limbqueue.document.RecordForm.Single;
import limbqueue.triage.Quantity;
import limbqueue.triage.ReferralDocument;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The schema and the record say the same fields; this walks both. */
class SchemaAndRecordsTest {

    private final PublishedSchema schema = PublishedSchema.referral();
    private final List<String> differences = new ArrayList<>();

    @Test
    void theSchemaAndTheRecordHaveTheSameFieldsInTheSameOrder() {
        compare(RecordForm.of(ReferralDocument.class), schema.root(), "");
        assertThat(differences).isEmpty();
    }

    @Test
    void everyFieldHasATitleForItsMessages() {
        everyField(schema.root(), "", (path, part) -> {
            if (!part.has("title")) {
                differences.add(path);
            }
        });
        assertThat(differences).isEmpty();
    }

    @Test
    void noFieldIsOfferedTwiceUnderOneTitleInOneObject() {
        everyObject(schema.root(), "", (path, part) -> {
            var titles = new TreeSet<String>();
            for (var name : part.get("properties").propertyNames()) {
                var title = ProblemWords.title(schema.field(part, name).orElseThrow());
                if (!titles.add(title) && !path.startsWith("legs")) {
                    differences.add(path + ": " + title);
                }
            }
        });
        assertThat(differences).isEmpty();
    }

    @Test
    void everyKeywordOfTheSchemaHasWords() {
        var worded = Set.of(
                "type",
                "enum",
                "const",
                "format",
                "pattern",
                "minimum",
                "maximum",
                "maxLength",
                "maxItems",
                "additionalProperties");
        var structure = Set.of(
                "$schema",
                "$id",
                "$ref",
                "$defs",
                "title",
                "description",
                "properties",
                "items",
                "allOf",
                "if",
                "then",
                "required",
                "x-unit",
                "x-likelyFactors",
                "x-likelyUnits",
                "x-hintAbove",
                "x-hintBelow",
                "x-earliest",
                "x-latestDaysFromToday");
        var unknown = new TreeSet<String>();
        keywords(schema.root(), keyword -> {
            if (!worded.contains(keyword) && !structure.contains(keyword)) {
                unknown.add(keyword);
            }
        });
        assertThat(unknown).isEmpty();
    }

    private void compare(RecordForm form, JsonNode part, String path) {
        var inSchema = List.copyOf(part.get("properties").propertyNames());
        var inRecord = form.fields().stream().map(RecordForm.Field::name).toList();
        if (!inSchema.equals(inRecord)) {
            differences.add("%s: the schema has %s, the record %s".formatted(path, inSchema, inRecord));
            return;
        }
        if (!part.get("additionalProperties")
                .equals(part.get("additionalProperties").isBoolean() ? FALSE : part)) {
            differences.add(path + ": unknown fields are not refused");
        }
        for (var field : form.fields()) {
            var fieldPath = FieldPath.field(path, field.name());
            var fieldPart = schema.field(part, field.name()).orElseThrow();
            switch (field.content()) {
                case Group(var group) -> {
                    expectTypes(fieldPart, fieldPath, "object", "null");
                    compare(group, fieldPart, fieldPath);
                }
                case Entries(var entries) -> {
                    expectTypes(fieldPart, fieldPath, "array", "null");
                    var entry = schema.entry(fieldPart).orElseThrow();
                    expectTypes(entry, fieldPath + "[]", "object");
                    compare(entries, entry, fieldPath + "[]");
                }
                case Single(var type) -> compareSingle(type, fieldPart, fieldPath);
            }
        }
    }

    private static final JsonNode FALSE = tools.jackson.databind.node.JsonNodeFactory.instance.booleanNode(false);

    private void compareSingle(Class<?> type, JsonNode part, String path) {
        if (type.isEnum()) {
            var answers = Stream.concat(
                            Stream.of(type.getEnumConstants()).map(constant -> RecordForm.name((Enum<?>) constant)),
                            Stream.of("null"))
                    .toList();
            var inSchema = part.get("enum").values().stream()
                    .map(answer -> answer.isNull() ? "null" : answer.stringValue())
                    .toList();
            if (!answers.equals(inSchema)) {
                differences.add("%s: the schema has %s, the constants are %s".formatted(path, inSchema, answers));
            }
        } else if (type == String.class) {
            expectTypes(part, path, "string", "null");
        } else if (type == LocalDate.class) {
            expectTypes(part, path, "string", "null");
            if (!part.has("format") && !part.has("pattern") || !part.has("x-latestDaysFromToday")) {
                differences.add(path + ": not a date in the schema");
            }
        } else if (type == Boolean.class) {
            expectTypes(part, path, "boolean", "null");
        } else if (type == Integer.class || type == Quantity.Days.class) {
            expectTypes(part, path, "integer", "null");
            expectRange(part, path);
        } else if (type == Double.class || Quantity.class.isAssignableFrom(type)) {
            expectTypes(part, path, "number", "null");
            expectRange(part, path);
            expectUnit(type, part, path);
        } else {
            differences.add(path + ": " + type);
        }
    }

    private void expectUnit(Class<?> type, JsonNode part, String path) {
        var unit = part.has("x-unit") ? part.get("x-unit").stringValue() : "";
        var expected = Quantity.class.isAssignableFrom(type)
                ? switch (type.getSimpleName()) {
                    case "MmHg" -> "mmHg";
                    case "Metres" -> "m";
                    case "Millimetres" -> "mm";
                    case "Percent" -> "%";
                    case "Celsius" -> "°C";
                    case "PerMinute" -> "per minute";
                    case "PerMicrolitre" -> "per microlitre";
                    default -> "";
                }
                : unit;
        if (!unit.equals(expected)) {
            differences.add("%s: the unit is %s in the schema, the type is %s".formatted(path, unit, type));
        }
    }

    private void expectRange(JsonNode part, String path) {
        if (!part.has("minimum") || !part.has("maximum")) {
            differences.add(path + ": a number without bounds");
        }
    }

    private void expectTypes(JsonNode part, String path, String... types) {
        var type = part.get("type");
        var inSchema = type == null
                ? List.of()
                : type.isString()
                        ? List.of(type.stringValue())
                        : type.values().stream().map(JsonNode::stringValue).toList();
        if (!inSchema.equals(List.of(types))) {
            differences.add("%s: the type is %s in the schema, not %s".formatted(path, inSchema, List.of(types)));
        }
    }

    private interface Visit {
        void part(String path, JsonNode part);
    }

    private void everyField(JsonNode part, String path, Visit visit) {
        everyObject(part, path, (objectPath, object) -> {
            for (var name : object.get("properties").propertyNames()) {
                visit.part(
                        FieldPath.field(objectPath, name),
                        schema.field(object, name).orElseThrow());
            }
        });
    }

    private void everyObject(JsonNode part, String path, Visit visit) {
        if (part.has("properties")) {
            visit.part(path, part);
            for (var name : part.get("properties").propertyNames()) {
                everyObject(schema.field(part, name).orElseThrow(), FieldPath.field(path, name), visit);
            }
        }
        schema.entry(part).ifPresent(entry -> everyObject(entry, path + "[]", visit));
    }

    private interface Keyword {
        void met(String keyword);
    }

    private static void keywords(JsonNode part, Keyword met) {
        for (var keyword : part.properties()) {
            met.met(keyword.getKey());
            switch (keyword.getKey()) {
                case "properties", "$defs" -> keyword.getValue().values().forEach(inner -> keywords(inner, met));
                case "items", "if", "then" -> keywords(keyword.getValue(), met);
                case "allOf" -> keyword.getValue().values().forEach(inner -> keywords(inner, met));
                default -> {}
            }
        }
    }
}
