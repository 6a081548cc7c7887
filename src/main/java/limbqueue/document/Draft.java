package limbqueue.document;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import limbqueue.triage.ReferralDocument;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * A document being typed: values are set and read by path and kept exactly as typed, right or wrong. Not safe for use by
 * several threads at once.
 */
public final class Draft {

    private static final JsonNodeFactory NODES = JsonNodeFactory.instance;
    private static final int MOST_ENTRIES = 200;

    private final ObjectNode root;

    private Draft(ObjectNode root) {
        this.root = root;
    }

    /** A draft with nothing in it. */
    public static Draft empty() {
        return new Draft(NODES.objectNode());
    }

    /** @throws IllegalArgumentException if {@code json} is not a JSON object, or has two fields of one name */
    public static Draft of(String json) {
        try (var parser = JsonText.parser(json)) {
            if (parser.nextToken() != null) {
                var value = JsonText.value(parser);
                if (value.node() instanceof ObjectNode object
                        && value.repeated().isEmpty()
                        && parser.nextToken() == null) {
                    return new Draft(object);
                }
            }
        } catch (JacksonException broken) {
            throw new IllegalArgumentException("not a draft: " + JsonText.whatIsBroken(broken), broken);
        }
        throw new IllegalArgumentException("not a draft: it must be one JSON object in which no field is repeated");
    }

    /** The value at {@code path} (as {@code legs.left.abi} or {@code labs[0].value}), if there is one. */
    public Optional<JsonNode> get(String path) {
        return Optional.ofNullable(find(FieldPath.steps(path)))
                .filter(node -> !node.isNull())
                .map(JsonNode::deepCopy);
    }

    private @Nullable JsonNode find(List<Object> steps) {
        JsonNode node = root;
        for (var step : steps) {
            if (node == null) {
                return null;
            }
            node = child(node, step);
        }
        return node;
    }

    private static @Nullable JsonNode child(JsonNode node, Object step) {
        return step instanceof Integer index
                ? node.isArray() ? node.get(index) : null
                : node.isObject() ? node.get((String) step) : null;
    }

    /**
     * Sets the value at {@code path} to a {@link String}, {@link Number} or {@link Boolean}, making the objects and list
     * entries on the way. A single value that stands in the way is replaced.
     *
     * @throws IllegalArgumentException if {@code value} is none of these, or a number that JSON cannot write
     */
    public void set(String path, Object value) {
        put(path, single(value));
    }

    /** Puts back what {@link #get} gave for {@code path} at another time; empty makes it unknown. */
    public void putBack(String path, Optional<JsonNode> value) {
        value.ifPresentOrElse(known -> put(path, known.deepCopy()), () -> clear(path));
    }

    private static JsonNode single(Object value) {
        return switch (value) {
            case String text -> NODES.stringNode(text);
            case Boolean answer -> NODES.booleanNode(answer);
            case Integer whole -> NODES.numberNode(whole.intValue());
            case Long whole -> NODES.numberNode(whole.longValue());
            case BigInteger whole -> NODES.numberNode(whole);
            case BigDecimal number -> NODES.numberNode(number);
            case Double number when Double.isFinite(number) -> NODES.numberNode(decimal(number));
            default -> throw new IllegalArgumentException("a draft cannot hold " + value);
        };
    }

    private static BigDecimal decimal(double number) {
        var decimal = BigDecimal.valueOf(number);
        return number == Math.rint(number) && Math.abs(number) < 1e15 ? decimal.setScale(0) : decimal;
    }

    private void put(String path, JsonNode value) {
        var steps = FieldPath.steps(path);
        JsonNode node = root;
        for (var i = 0; i < steps.size(); i++) {
            var step = steps.get(i);
            JsonNode next = value;
            if (i + 1 < steps.size()) {
                var there = child(node, step);
                var list = steps.get(i + 1) instanceof Integer;
                next = there != null && (list ? there.isArray() : there.isObject())
                        ? there
                        : list ? NODES.arrayNode() : NODES.objectNode();
            }
            if (step instanceof Integer index) {
                var entries = (ArrayNode) node;
                if (index >= MOST_ENTRIES) {
                    throw new IllegalArgumentException("a list has at most " + MOST_ENTRIES + " entries: " + path);
                }
                while (entries.size() <= index) {
                    entries.addObject();
                }
                entries.set(index, next);
            } else if (node instanceof ObjectNode object) {
                object.set((String) step, next);
            } else {
                throw new IllegalArgumentException("not a path of fields: " + path);
            }
            node = next;
        }
    }

    /** Makes the value at {@code path} unknown; objects left empty on the way go too, list entries stay. */
    public void clear(String path) {
        clear(root, FieldPath.steps(path));
    }

    private static void clear(@Nullable JsonNode node, List<Object> steps) {
        if (node == null) {
            return;
        }
        var step = steps.getFirst();
        var there = child(node, step);
        if (there == null) {
            return;
        }
        if (steps.size() > 1) {
            clear(there, steps.subList(1, steps.size()));
            if (there.isObject() && there.isEmpty() && node instanceof ObjectNode object) {
                object.remove((String) step);
            }
        } else if (node instanceof ObjectNode object) {
            object.remove((String) step);
        } else if (node instanceof ArrayNode list) {
            list.set((int) (Integer) step, NODES.objectNode());
        }
    }

    /** The entries of the list at {@code path}; empty when the list is unknown. */
    public Optional<Integer> sizeOf(String path) {
        return Optional.ofNullable(find(FieldPath.steps(path)))
                .filter(JsonNode::isArray)
                .map(JsonNode::size);
    }

    /** Sets the list at {@code path} to a list without entries: the answer "none". */
    public void setNone(String path) {
        put(path, NODES.arrayNode());
    }

    /**
     * Removes entry {@code index} of the list at {@code path}. With its last entry gone the list is unknown: that there
     * is none is an answer, and {@link #setNone} gives it.
     */
    public void removeEntry(String path, int index) {
        if (find(FieldPath.steps(path)) instanceof ArrayNode list && index >= 0 && index < list.size()) {
            list.remove(index);
            if (list.isEmpty()) {
                clear(path);
            }
        }
    }

    public Reading read(LocalDate today) {
        return DocumentFormat.read(root, today);
    }

    /** The paths of single values on which this draft and {@code other} differ, in the order of the format. */
    public List<String> differencesFrom(Draft other) {
        var paths = new ArrayList<String>();
        compare(root, other.root, "", Optional.of(RecordForm.of(ReferralDocument.class)), paths);
        return paths;
    }

    private static void compare(
            @Nullable JsonNode one,
            @Nullable JsonNode two,
            String path,
            Optional<RecordForm> form,
            List<String> paths) {
        var names = new LinkedHashSet<String>();
        form.ifPresent(known -> known.fields().forEach(field -> names.add(field.name())));
        addFields(one, names);
        addFields(two, names);
        for (var name : names) {
            compareValues(
                    value(one, name),
                    value(two, name),
                    FieldPath.field(path, name),
                    form.flatMap(known -> known.formOf(name)),
                    paths);
        }
    }

    private static void compareValues(
            @Nullable JsonNode one,
            @Nullable JsonNode two,
            String path,
            Optional<RecordForm> form,
            List<String> paths) {
        if (isPart(one, JsonNode::isObject) && isPart(two, JsonNode::isObject) && !(one == null && two == null)) {
            compare(one, two, path, form, paths);
        } else if (isEntries(one) && isEntries(two) && !(one == null && two == null)) {
            var entries = Math.max(one == null ? 0 : one.size(), two == null ? 0 : two.size());
            for (var i = 0; i < entries; i++) {
                compareEntries(
                        one == null ? null : one.get(i),
                        two == null ? null : two.get(i),
                        FieldPath.entry(path, i),
                        form,
                        paths);
            }
        } else if (!same(one, two)) {
            paths.add(path);
        }
    }

    /** An entry that only one of the two has is a difference even when nothing is known of it. */
    private static void compareEntries(
            @Nullable JsonNode one,
            @Nullable JsonNode two,
            String path,
            Optional<RecordForm> form,
            List<String> paths) {
        var before = paths.size();
        compareValues(one, two, path, form, paths);
        if (paths.size() == before && (one == null) != (two == null)) {
            paths.add(path);
        }
    }

    private interface Kind {
        boolean test(JsonNode node);
    }

    private static boolean isPart(@Nullable JsonNode node, Kind kind) {
        return node == null || kind.test(node);
    }

    /** A list with entries, or nothing. An empty list is the single value "none". */
    private static boolean isEntries(@Nullable JsonNode node) {
        return node == null || node.isArray() && !node.isEmpty();
    }

    private static void addFields(@Nullable JsonNode node, Set<String> names) {
        if (node != null) {
            names.addAll(node.propertyNames());
        }
    }

    private static @Nullable JsonNode value(@Nullable JsonNode object, String name) {
        var value = object == null ? null : object.get(name);
        return value == null || value.isNull() ? null : value;
    }

    private static boolean same(@Nullable JsonNode one, @Nullable JsonNode two) {
        if (one == null || two == null) {
            return one == null && two == null;
        }
        return one.isNumber() && two.isNumber()
                ? one.decimalValue().compareTo(two.decimalValue()) == 0
                : one.equals(two);
    }

    public String toJson() {
        return JsonText.write(root);
    }
}
