package limbqueue.document;

import java.time.LocalDateTime;

/** Writes records as JSON: each component under its name, what is empty left out, constants in lower camel case. */
public final class LineFormat {

    private LineFormat() {}

    /** One JSON object on one line, without the line's end, the same bytes for the same record. */
    public static String write(Record part) {
        var out = new StringBuilder(1_000);
        RecordForm.of(part.getClass()).append(part, LineFormat::append, out);
        return out.toString();
    }

    private static boolean append(Object value, StringBuilder out) {
        switch (value) {
            case Long whole -> out.append(whole.longValue());
            case LocalDateTime time -> out.append('"').append(time).append('"');
            default -> {
                return false;
            }
        }
        return true;
    }

    /**
     * The constant of {@code type} that the format names {@code name}.
     *
     * @throws IllegalArgumentException if there is none, which a schema has to keep from happening
     */
    public static <E extends Enum<E>> E constant(Class<E> type, String name) {
        for (var constant : type.getEnumConstants()) {
            if (RecordForm.name(constant).equals(name)) {
                return constant;
            }
        }
        throw new IllegalArgumentException("%s has no constant %s".formatted(type, name));
    }

    /** What the format names {@code constant}. */
    public static String name(Enum<?> constant) {
        return RecordForm.name(constant);
    }
}
