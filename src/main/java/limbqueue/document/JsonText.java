package limbqueue.document;

import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.TokenStreamLocation;
import tools.jackson.core.exc.JacksonIOException;
import tools.jackson.core.exc.StreamConstraintsException;
import tools.jackson.core.exc.UnexpectedEndOfInputException;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.NullNode;
import tools.jackson.databind.node.StringNode;

/**
 * JSON as text: read into nodes that keep every number as written, and written on one line.
 *
 * <p>Nodes are built here and not by an object mapper because a mapper would quietly keep the last of two fields of the
 * same name, and because its start takes longer than the whole of a triage.
 */
final class JsonText {

    private static final JsonFactory FACTORY = JsonFactory.builder().build();
    private static final JsonNodeFactory NODES = new QuickNodes();
    private static final int LONGEST_SHOWN = 60;

    private JsonText() {}

    /**
     * Makes texts and nulls that write themselves. The schema library writes every permitted answer as it reads a
     * schema, and the node's own way of doing so begins with starting an object mapper: half of a cold start.
     */
    private static final class QuickNodes extends JsonNodeFactory {
        private static final long serialVersionUID = 1L;

        @Override
        public StringNode stringNode(String text) {
            return new QuickText(text);
        }

        @Override
        public NullNode nullNode() {
            return QuickNull.NULL;
        }
    }

    private static final class QuickText extends StringNode {
        private static final long serialVersionUID = 1L;

        QuickText(String text) {
            super(text);
        }

        @Override
        public String toString() {
            return write(this);
        }
    }

    private static final class QuickNull extends NullNode {
        private static final long serialVersionUID = 1L;
        static final NullNode NULL = new QuickNull();

        @Override
        public String toString() {
            return "null";
        }
    }

    static JsonParser parser(String json) {
        return FACTORY.createParser(ObjectReadContext.empty(), json);
    }

    static JsonParser parser(InputStream json) {
        return FACTORY.createParser(ObjectReadContext.empty(), json);
    }

    /**
     * One value.
     *
     * @param repeated the fields that are given more than once, by path, with the words for it; the node has the first
     */
    record Value(JsonNode node, Map<String, String> repeated) {}

    /** Reads the value that begins with the current token of {@code parser}. */
    static Value value(JsonParser parser) {
        var repeated = new LinkedHashMap<String, String>();
        var node = node(parser, Place.DOCUMENT, repeated);
        return new Value(node, repeated);
    }

    /** Where a group or a list lies; spelled out only when there is something to say of it. */
    private record Place(@Nullable Place outer, @Nullable String name, int index) {

        static final Place DOCUMENT = new Place(null, null, 0);

        Place field(String name) {
            return new Place(this, name, 0);
        }

        Place entry(int index) {
            return new Place(this, null, index);
        }

        String path() {
            if (outer == null) {
                return "";
            }
            return name == null ? FieldPath.entry(outer.path(), index) : FieldPath.field(outer.path(), name);
        }
    }

    private static JsonNode node(JsonParser parser, Place place, Map<String, String> repeated) {
        return switch (parser.currentToken()) {
            case START_OBJECT -> object(parser, place, repeated);
            case START_ARRAY -> {
                var list = NODES.arrayNode();
                while (parser.nextToken() != JsonToken.END_ARRAY) {
                    list.add(node(parser, place.entry(list.size()), repeated));
                }
                yield list;
            }
            case VALUE_STRING -> NODES.stringNode(parser.getString());
            case VALUE_NUMBER_INT ->
                switch (parser.getNumberType()) {
                    case INT -> NODES.numberNode(parser.getIntValue());
                    case LONG -> NODES.numberNode(parser.getLongValue());
                    default -> NODES.numberNode(parser.getBigIntegerValue());
                };
            case VALUE_NUMBER_FLOAT -> NODES.numberNode(parser.getDecimalValue());
            case VALUE_TRUE -> NODES.booleanNode(true);
            case VALUE_FALSE -> NODES.booleanNode(false);
            default -> NODES.nullNode();
        };
    }

    private static JsonNode object(JsonParser parser, Place place, Map<String, String> repeated) {
        var object = NODES.objectNode();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
            var name = parser.currentName();
            var again = object.has(name);
            if (again) {
                repeated.put(
                        place.field(name).path(),
                        "The field %s is given more than once, again in line %d. Keep one of them."
                                .formatted(
                                        quoted(name),
                                        parser.currentTokenLocation().getLineNr()));
            }
            var value = node(parser, parser.nextToken().isStructStart() ? place.field(name) : place, repeated);
            if (!again) {
                object.set(name, value);
            }
        }
        return object;
    }

    /**
     * What is wrong with text that could not be read as JSON, beginning with line and column.
     *
     * @throws JacksonIOException if it is not the text that is wrong, but its source could not be read
     */
    static String whatIsBroken(JacksonException broken) {
        if (broken instanceof JacksonIOException unreadable && !isEncoding(unreadable)) {
            throw unreadable;
        }
        return place(broken.getLocation())
                + switch (broken) {
                    case UnexpectedEndOfInputException _ ->
                        "The text ends before the JSON does. A closing bracket or quote is missing, or the file was cut off.";
                    case StreamConstraintsException _ ->
                        "Something here is too long or nested too deeply to be part of a referral.";
                    default ->
                        "This is not JSON from here on. Look for a missing or extra comma, quote or bracket at this place or just before it.";
                };
    }

    private static boolean isEncoding(JacksonIOException unreadable) {
        return unreadable.getCause() instanceof java.io.CharConversionException;
    }

    static String place(TokenStreamLocation location) {
        return location == null || location.getLineNr() < 1
                ? ""
                : "line %d, column %d: ".formatted(location.getLineNr(), location.getColumnNr());
    }

    /** {@code node} as JSON on one line. */
    static String write(JsonNode node) {
        var out = new StringBuilder();
        write(node, out);
        return out.toString();
    }

    private static void write(JsonNode node, StringBuilder out) {
        if (node.isObject()) {
            out.append('{');
            var separator = "";
            for (var field : node.properties()) {
                out.append(separator);
                quote(field.getKey(), out);
                out.append(':');
                write(field.getValue(), out);
                separator = ",";
            }
            out.append('}');
        } else if (node.isArray()) {
            out.append('[');
            var separator = "";
            for (var entry : node.values()) {
                out.append(separator);
                write(entry, out);
                separator = ",";
            }
            out.append(']');
        } else if (node.isString()) {
            quote(node.stringValue(), out);
        } else if (node.isNumber()) {
            out.append(node.isBigDecimal() ? node.decimalValue().toString() : node.asString());
        } else {
            out.append(node.isBoolean() ? String.valueOf(node.booleanValue()) : "null");
        }
    }

    /** Appends {@code text} as a JSON text. */
    static void quote(String text, StringBuilder out) {
        out.append('"');
        // Nearly every text stands for itself from beginning to end.
        var plain = 0;
        while (plain < text.length() && isPlain(text.charAt(plain))) {
            plain++;
        }
        if (plain == text.length()) {
            out.append(text).append('"');
            return;
        }
        out.append(text, 0, plain);
        for (var i = plain; i < text.length(); i++) {
            var c = text.charAt(i);
            switch (c) {
                case '"' -> out.append("\\\"");
                case '\\' -> out.append("\\\\");
                case '\n' -> out.append("\\n");
                case '\r' -> out.append("\\r");
                case '\t' -> out.append("\\t");
                default -> {
                    if (c < ' ' || Character.isSurrogate(c) && !isPaired(text, i)) {
                        out.append("\\u%04x".formatted((int) c));
                    } else {
                        out.append(c);
                    }
                }
            }
        }
        out.append('"');
    }

    private static boolean isPlain(char c) {
        return c >= ' ' && c != '"' && c != '\\' && !Character.isSurrogate(c);
    }

    private static boolean isPaired(String text, int i) {
        return Character.isHighSurrogate(text.charAt(i))
                ? i + 1 < text.length() && Character.isLowSurrogate(text.charAt(i + 1))
                : i > 0 && Character.isHighSurrogate(text.charAt(i - 1));
    }

    /** {@code text} in quotes for a message: on one line, and cut when long. */
    static String quoted(String text) {
        var out = new StringBuilder("\"");
        text.codePoints()
                .limit(LONGEST_SHOWN)
                .forEach(c -> out.appendCodePoint(
                        Character.isISOControl(c) || Character.getType(c) == Character.SURROGATE || isLineBreak(c)
                                ? ' '
                                : c));
        return out.append(text.codePointCount(0, text.length()) > LONGEST_SHOWN ? "…\"" : "\"")
                .toString();
    }

    private static boolean isLineBreak(int c) {
        return Character.getType(c) == Character.LINE_SEPARATOR
                || Character.getType(c) == Character.PARAGRAPH_SEPARATOR;
    }

    /** {@code node} as a message shows it: on one line, and cut when long. */
    static String shown(JsonNode node) {
        if (node.isString()) {
            return quoted(node.stringValue());
        }
        if (node.isObject()) {
            return "a group of fields";
        }
        if (node.isArray()) {
            return "a list";
        }
        var text = write(node);
        return text.length() > LONGEST_SHOWN ? text.substring(0, LONGEST_SHOWN) + "…" : text;
    }
}
