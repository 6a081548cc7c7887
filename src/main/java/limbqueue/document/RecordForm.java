package limbqueue.document;

import java.lang.invoke.MethodHandle;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.MethodType;
import java.lang.reflect.Method;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.Type;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import limbqueue.triage.Quantity;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.exc.JsonNodeException;
import tools.jackson.databind.node.ObjectNode;

/**
 * The form that a record gives to a JSON object: each component is the field of its name, an empty {@link Optional} an
 * absent field, a quantity a number in the unit of its type, and a constant its name in lower camel case.
 */
final class RecordForm {

    private static final MethodHandles.Lookup LOOKUP = MethodHandles.lookup();

    private static final Map<Class<?>, RecordForm> FORMS = new ConcurrentHashMap<>();

    /** For each enum, the names of its constants in their order. */
    private static final ClassValue<List<String>> NAMES = new ClassValue<>() {
        @Override
        protected List<String> computeValue(Class<?> type) {
            return Stream.of(type.getEnumConstants())
                    .map(constant -> camelCase(((Enum<?>) constant).name()))
                    .toList();
        }
    };

    /** For each enum, its constants by name. */
    private static final ClassValue<Map<String, Object>> CONSTANTS = new ClassValue<>() {
        @Override
        protected Map<String, Object> computeValue(Class<?> type) {
            return Stream.of(type.getEnumConstants())
                    .collect(Collectors.toMap(constant -> name((Enum<?>) constant), constant -> constant));
        }
    };

    /** What a field holds. */
    sealed interface Content {}

    /** A record of its own. */
    record Group(RecordForm form) implements Content {}

    /** A list of records. */
    record Entries(RecordForm form) implements Content {}

    /** A single value of {@code type}. */
    record Single(Class<?> type) implements Content {}

    /**
     * @param optional whether the component is an {@link Optional}
     * @param key the name as it stands before a value
     */
    record Field(String name, MethodHandle accessor, boolean optional, Content content, String key) {}

    private final MethodHandle constructor;
    /** Whether it is a quantity that has only whole numbers. */
    private final boolean whole;

    private final List<Field> fields;
    private final Field[] asArray;
    private @Nullable Object nothing;

    private RecordForm(Class<?> type) {
        var components = type.getRecordComponents();
        fields = Stream.of(components)
                .map(component -> {
                    var accessor = component.getAccessor();
                    accessor.setAccessible(true);
                    var declared = component.getGenericType();
                    var optional = rawType(declared) == Optional.class;
                    return new Field(
                            component.getName(),
                            reading(accessor),
                            optional,
                            content(optional ? argument(declared) : declared),
                            '"' + component.getName() + "\":");
                })
                .toList();
        asArray = fields.toArray(Field[]::new);
        whole = components.length == 1 && components[0].getType() == int.class;
        constructor = making(
                type,
                Stream.of(components).map(component -> component.getType()).toArray(Class<?>[]::new));
    }

    private static MethodHandle reading(Method accessor) {
        try {
            return LOOKUP.unreflect(accessor).asType(MethodType.methodType(Object.class, Object.class));
        } catch (IllegalAccessException e) {
            throw new IllegalStateException("cannot read " + accessor, e);
        }
    }

    private static MethodHandle making(Class<?> type, Class<?>[] components) {
        try {
            var constructor = type.getDeclaredConstructor(components);
            constructor.setAccessible(true);
            return LOOKUP.unreflectConstructor(constructor)
                    .asSpreader(Object[].class, components.length)
                    .asType(MethodType.methodType(Object.class, Object[].class));
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("a record without its constructor: " + type, e);
        }
    }

    static RecordForm of(Class<?> type) {
        var known = FORMS.get(type);
        if (known == null) {
            known = new RecordForm(type);
            FORMS.put(type, known);
        }
        return known;
    }

    List<Field> fields() {
        return fields;
    }

    /** The form of what field {@code name} holds: of the record itself, or of the entries of the list. */
    Optional<RecordForm> formOf(String name) {
        return fields.stream()
                .filter(field -> field.name().equals(name))
                .findFirst()
                .flatMap(field -> switch (field.content()) {
                    case Group(var form) -> Optional.of(form);
                    case Entries(var form) -> Optional.of(form);
                    case Single _ -> Optional.empty();
                });
    }

    private static Content content(Type type) {
        if (rawType(type) == List.class) {
            var entry = rawType(argument(type));
            return entry.isRecord() ? new Entries(of(entry)) : new Single(List.class);
        }
        var single = rawType(type);
        return single.isRecord() && !Quantity.class.isAssignableFrom(single)
                ? new Group(of(single))
                : new Single(single);
    }

    private static Type argument(Type type) {
        return ((ParameterizedType) type).getActualTypeArguments()[0];
    }

    private static Class<?> rawType(Type type) {
        return (Class<?>) (type instanceof ParameterizedType generic ? generic.getRawType() : type);
    }

    /**
     * The record of {@code object}, with everything unknown that is absent, null, blank text, or named in {@code leftOut}.
     *
     * @param object the JSON object, checked against the schema except at the paths left out; null when absent
     * @param path where {@code object} lies in the document
     */
    Object read(@Nullable JsonNode object, String path, Set<String> leftOut) {
        if (object == null) {
            return nothing();
        }
        var values = new Object[asArray.length];
        for (var i = 0; i < values.length; i++) {
            var field = asArray[i];
            var fieldPath = leftOut.isEmpty() ? "" : FieldPath.field(path, field.name());
            var node = object.get(field.name());
            if (node != null && (node.isNull() || leftOut.contains(fieldPath))) {
                node = null;
            }
            values[i] = switch (field.content()) {
                case Group(var form) -> form.read(node, fieldPath, leftOut);
                case Entries(var form) -> Optional.ofNullable(node).map(list -> form.entries(list, fieldPath, leftOut));
                case Single(var type) -> Optional.ofNullable(node).flatMap(single -> single(type, single));
            };
        }
        return make(values);
    }

    /** The record of which nothing is known: a value, made once. */
    private Object nothing() {
        var known = nothing;
        if (known == null) {
            var values = new Object[asArray.length];
            for (var i = 0; i < values.length; i++) {
                values[i] = asArray[i].content() instanceof Group(var form) ? form.nothing() : Optional.empty();
            }
            known = make(values);
            nothing = known;
        }
        return known;
    }

    /**
     * {@code part}, a record of this form, with one value in it otherwise.
     *
     * @param steps where the value lies: a {@link String} for a field, an {@link Integer} for the entry of a list, of which
     *     one past the last is a new entry
     * @param value the value as the format has it; null makes it unknown
     * @throws IllegalArgumentException if no value lies there, or it is of another kind
     */
    Object with(Object part, List<Object> steps, @Nullable JsonNode value) {
        var values = new Object[fields.size()];
        var found = false;
        for (var i = 0; i < values.length; i++) {
            var field = fields.get(i);
            values[i] = value(field.accessor(), part);
            if (field.name().equals(steps.getFirst())) {
                values[i] = with(field.content(), values[i], steps.subList(1, steps.size()), value);
                found = true;
            }
        }
        if (!found) {
            throw new IllegalArgumentException("no field " + steps.getFirst());
        }
        return make(values);
    }

    private static Object with(Content content, Object now, List<Object> steps, @Nullable JsonNode value) {
        if (content instanceof Group(var form) && !steps.isEmpty()) {
            return form.with(now, steps, value);
        }
        if (content instanceof Entries(var form) && steps.size() > 1 && steps.getFirst() instanceof Integer index) {
            var entries = new ArrayList<Object>(
                    ((Optional<?>) now).map(List.class::cast).orElse(List.of()));
            if (index == entries.size()) {
                entries.add(form.read(null, "", Set.of()));
            }
            if (index >= entries.size()) {
                throw new IllegalArgumentException("no entry " + index);
            }
            entries.set(index, form.with(entries.get(index), steps.subList(1, steps.size()), value));
            return Optional.of(List.copyOf(entries));
        }
        if (content instanceof Single(var type) && steps.isEmpty()) {
            return Optional.ofNullable(value).flatMap(known -> of(type, known));
        }
        throw new IllegalArgumentException("no single value");
    }

    private static Optional<?> of(Class<?> type, JsonNode value) {
        try {
            var read = single(type, value);
            if (read.isEmpty()) {
                throw new IllegalArgumentException("not a value of this field: " + JsonText.shown(value));
            }
            return read;
        } catch (JsonNodeException | ArithmeticException another) {
            throw new IllegalArgumentException("not a value of this field: " + JsonText.shown(value), another);
        }
    }

    private List<Object> entries(JsonNode list, String path, Set<String> leftOut) {
        var entries = new ArrayList<>();
        for (var i = 0; i < list.size(); i++) {
            var entryPath = leftOut.isEmpty() ? "" : FieldPath.entry(path, i);
            // An entry that cannot be read keeps its place, so that the paths of the others stay true.
            entries.add(read(leftOut.contains(entryPath) ? null : list.get(i), entryPath, leftOut));
        }
        return List.copyOf(entries);
    }

    private static Optional<?> single(Class<?> type, JsonNode node) {
        if (type == String.class) {
            return Optional.of(node.stringValue()).filter(text -> !text.isBlank());
        }
        if (type == Boolean.class) {
            return Optional.of(node.booleanValue());
        }
        if (type == Double.class) {
            return Optional.of(node.doubleValue());
        }
        if (type == Integer.class) {
            return Optional.of(node.decimalValue().intValueExact());
        }
        if (type == LocalDate.class) {
            return DateRules.day(node.stringValue());
        }
        if (type.isEnum()) {
            return Optional.ofNullable(CONSTANTS.get(type).get(node.stringValue()));
        }
        if (Quantity.class.isAssignableFrom(type)) {
            var quantity = of(type);
            Object number = node.doubleValue();
            if (quantity.whole) {
                number = node.decimalValue().intValueExact();
            }
            return Optional.of(quantity.make(number));
        }
        throw new IllegalStateException("the format has no form for " + type);
    }

    private Object make(Object... values) {
        try {
            return constructor.invokeExact(values);
        } catch (Throwable e) {
            throw new IllegalStateException("cannot make a record of " + fields, e);
        }
    }

    /** The JSON object of {@code part}, a record of this form, with its fields in the order of the record. */
    ObjectNode write(Object part) {
        var text = new StringBuilder();
        append(part, Special.NONE, text);
        var parser = JsonText.parser(text.toString());
        parser.nextToken();
        return (ObjectNode) JsonText.value(parser).node();
    }

    /** Values that are written in a form of their own. */
    interface Special {
        Special NONE = (_, _) -> false;

        /** Appends {@code value} as JSON, or returns false if it has no form of its own. */
        boolean append(Object value, StringBuilder out);
    }

    /** Appends {@code part}, a record of this form, as JSON on one line, with its fields in the order of the record. */
    void append(Object part, Special special, StringBuilder out) {
        var separator = '{';
        for (var field : asArray) {
            var value = value(field.accessor(), part);
            if (value instanceof Optional<?> optional) {
                if (optional.isEmpty()) {
                    continue;
                }
                value = optional.get();
            }
            out.append(separator).append(field.key());
            appendValue(value, special, out);
            separator = ',';
        }
        out.append(separator == '{' ? "{}" : "}");
    }

    private static void appendValue(Object value, Special special, StringBuilder out) {
        // Most are texts and lists, and neither has a form of its own.
        if (value instanceof String text) {
            JsonText.quote(text, out);
            return;
        }
        if (value instanceof List<?> list) {
            appendList(list, special, out);
            return;
        }
        if (special.append(value, out)) {
            return;
        }
        switch (value) {
            case Boolean answer -> out.append(answer.booleanValue());
            case LocalDate date -> out.append('"').append(date).append('"');
            case Enum<?> constant -> out.append('"').append(name(constant)).append('"');
            case Integer whole -> out.append(whole.intValue());
            case Double number -> appendNumber(number, out);
            case Quantity quantity -> appendNumber(quantity.value(), out);
            case Record part -> of(part.getClass()).append(part, special, out);
            default -> throw new IllegalStateException("the format has no form for " + value.getClass());
        }
    }

    private static void appendList(List<?> list, Special special, StringBuilder out) {
        out.append('[');
        for (var i = 0; i < list.size(); i++) {
            if (i > 0) {
                out.append(',');
            }
            appendValue(list.get(i), special, out);
        }
        out.append(']');
    }

    /** A number as short as it can be written: 80 and not 80.0. */
    private static void appendNumber(double number, StringBuilder out) {
        if (number == Math.rint(number) && Math.abs(number) < 1e15) {
            out.append((long) number);
        } else {
            out.append(BigDecimal.valueOf(number));
        }
    }

    private static Object value(MethodHandle accessor, Object part) {
        try {
            return accessor.invokeExact(part);
        } catch (Throwable e) {
            throw new IllegalStateException("cannot read a field of " + part.getClass(), e);
        }
    }

    /** The name of {@code constant} in the format: {@code BELOW_KNEE} is {@code belowKnee}. */
    static String name(Enum<?> constant) {
        return NAMES.get(constant.getDeclaringClass()).get(constant.ordinal());
    }

    private static String camelCase(String name) {
        var words = name.toLowerCase(Locale.ROOT).split("_", -1);
        var joined = new StringBuilder(words[0]);
        for (var i = 1; i < words.length; i++) {
            joined.append(Character.toUpperCase(words[i].charAt(0))).append(words[i].substring(1));
        }
        return joined.toString();
    }
}
