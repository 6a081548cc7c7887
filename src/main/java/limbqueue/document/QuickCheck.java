package limbqueue.document;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * Sees at once of most documents in order that they are. It is made of the schema when that is read, and knows only the
 * part of JSON Schema that our schemas use. What it does not accept is not thereby wrong: the schema library judges
 * that, and finds the place. What it accepts, the library accepts too.
 */
final class QuickCheck {

    /** Keywords that limit nothing. */
    private static final Set<String> ANNOTATIONS = Set.of("$schema", "$id", "$defs", "title", "description");

    /** Keywords that are read together with another one. */
    private static final Set<String> READ_WITH_ANOTHER = Set.of("additionalProperties", "then");

    /** One demand of the schema on a value. */
    private interface Demand {
        boolean metBy(JsonNode value);
    }

    private final JsonNode root;
    private final IdentityHashMap<JsonNode, Demand> made = new IdentityHashMap<>();
    private final Demand whole;

    /** @throws IllegalArgumentException if {@code schema} says something that is not understood here */
    QuickCheck(JsonNode schema) {
        this.root = schema;
        this.whole = demand(schema);
    }

    boolean accepts(JsonNode document) {
        return whole.metBy(document);
    }

    private Demand demand(JsonNode part) {
        var known = made.get(part);
        if (known == null) {
            known = make(part);
            made.put(part, known);
        }
        return known;
    }

    private Demand make(JsonNode part) {
        var demands = new ArrayList<Demand>();
        for (var keyword : part.properties()) {
            var name = keyword.getKey();
            var value = keyword.getValue();
            if (ANNOTATIONS.contains(name) || READ_WITH_ANOTHER.contains(name) || name.startsWith("x-")) {
                continue;
            }
            demands.add(
                    switch (name) {
                        case "$ref" -> demand(root.at(value.stringValue().substring(1)));
                        case "type" -> type(value);
                        case "enum" -> oneOf(value);
                        case "const" -> only(value);
                        case "properties" -> fields(value, part.get("additionalProperties"));
                        case "required" -> required(value);
                        case "items" -> entries(value);
                        case "maxItems" -> {
                            var most = value.intValue();
                            yield node -> !node.isArray() || node.size() <= most;
                        }
                        case "maxLength" -> {
                            // A text has at most as many characters as it has code units.
                            var most = value.intValue();
                            yield node -> !node.isString() || node.stringValue().length() <= most;
                        }
                        case "minimum" -> number(value, -1);
                        case "maximum" -> number(value, 1);
                        case "format" -> date(value);
                        case "pattern" -> {
                            var pattern = Pattern.compile(value.stringValue());
                            // To Java the end of a text may lie before a line break, which must not slip through.
                            yield node -> !node.isString()
                                    || node.stringValue().indexOf('\n') < 0
                                            && pattern.matcher(node.stringValue())
                                                    .find();
                        }
                        case "allOf" ->
                            all(value.values().stream().map(this::demand).toList());
                        case "if" -> {
                            var condition = demand(value);
                            var then = demand(part.get("then"));
                            yield node -> !condition.metBy(node) || then.metBy(node);
                        }
                        default -> throw new IllegalArgumentException("a keyword that is not understood: " + name);
                    });
        }
        return demands.size() == 1 ? demands.getFirst() : all(demands);
    }

    private static Demand all(List<Demand> demands) {
        var each = demands.toArray(Demand[]::new);
        return node -> {
            for (var demand : each) {
                if (!demand.metBy(node)) {
                    return false;
                }
            }
            return true;
        };
    }

    private static Demand type(JsonNode value) {
        var permitted = new ArrayList<Demand>();
        for (var name : value.isArray() ? value.values() : List.of(value)) {
            permitted.add(
                    switch (name.stringValue()) {
                        case "object" -> JsonNode::isObject;
                        case "array" -> JsonNode::isArray;
                        case "string" -> JsonNode::isString;
                        case "number" -> JsonNode::isNumber;
                        // A whole number written with a decimal point is left to the library.
                        case "integer" -> JsonNode::isIntegralNumber;
                        case "boolean" -> JsonNode::isBoolean;
                        case "null" -> JsonNode::isNull;
                        default -> throw new IllegalArgumentException("a type that is not understood: " + name);
                    });
        }
        var each = permitted.toArray(Demand[]::new);
        return node -> {
            for (var type : each) {
                if (type.metBy(node)) {
                    return true;
                }
            }
            return false;
        };
    }

    private static Demand oneOf(JsonNode values) {
        var texts = new HashSet<String>();
        var nothing = false;
        for (var value : values.values()) {
            if (value.isNull()) {
                nothing = true;
            } else {
                texts.add(value.stringValue());
            }
        }
        var nullPermitted = nothing;
        return node -> node.isString() ? texts.contains(node.stringValue()) : nullPermitted && node.isNull();
    }

    private static Demand only(JsonNode value) {
        var text = value.stringValue();
        return node -> node.isString() && text.equals(node.stringValue());
    }

    private Demand fields(JsonNode properties, @Nullable JsonNode others) {
        var fields = new HashMap<String, Demand>();
        for (var field : properties.properties()) {
            fields.put(field.getKey(), demand(field.getValue()));
        }
        if (others == null) {
            return node -> {
                for (var field : fields.entrySet()) {
                    var value = node.get(field.getKey());
                    if (value != null && !field.getValue().metBy(value)) {
                        return false;
                    }
                }
                return true;
            };
        }
        if (!others.isBoolean() || others.booleanValue()) {
            throw new IllegalArgumentException("additionalProperties other than false are not understood");
        }
        return node -> {
            for (var field : node.properties()) {
                var demand = fields.get(field.getKey());
                if (demand == null || !demand.metBy(field.getValue())) {
                    return false;
                }
            }
            return true;
        };
    }

    private static Demand required(JsonNode names) {
        var each = names.values().stream().map(JsonNode::stringValue).toList();
        return node -> {
            if (node.isObject()) {
                for (var name : each) {
                    if (!node.has(name)) {
                        return false;
                    }
                }
            }
            return true;
        };
    }

    private Demand entries(JsonNode items) {
        var entry = demand(items);
        return node -> {
            if (node.isArray()) {
                for (var i = 0; i < node.size(); i++) {
                    if (!entry.metBy(node.get(i))) {
                        return false;
                    }
                }
            }
            return true;
        };
    }

    /** @param beyond the sign of a number's comparison with {@code limit} that is refused */
    private static Demand number(JsonNode limit, int beyond) {
        var exactly = limit.decimalValue();
        var whole = limit.isInt();
        var wholeLimit = whole ? limit.longValue() : 0;
        return node -> {
            if (!node.isNumber()) {
                return true;
            }
            var sign = whole && node.isInt()
                    ? Long.compare(node.longValue(), wholeLimit)
                    : node.decimalValue().compareTo(exactly);
            return Integer.signum(sign) != beyond;
        };
    }

    private static Demand date(JsonNode format) {
        if (!format.stringValue().equals("date")) {
            throw new IllegalArgumentException("a format that is not understood: " + format);
        }
        return node -> !node.isString()
                || node.stringValue().length() == 10
                        && DateRules.day(node.stringValue()).isPresent();
    }
}
